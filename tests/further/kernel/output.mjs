export async function output() {
  return [];
}
