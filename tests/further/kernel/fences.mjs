export async function fences() { return []; }
