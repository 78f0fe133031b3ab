/**
 * Pixels whose colours are those of the paint, not of the paint times its opacity as a renderer holds them.
 *
 * @param premultiplied - red, green, blue, opacity a pixel; no colour above its opacity
 * @returns four bytes a pixel; the same array where all is opaque
 * Source: ISO/IEC 15948 (PNG), which stores colours that are not multiplied.
 */
export function straightColours(premultiplied: Uint8Array): Uint8Array {
  let straight = premultiplied;
  for (let at = 0; at < premultiplied.length; at += 4) {
    const opacity = premultiplied[at + 3]!;
    if (opacity === 255) continue;
    if (straight === premultiplied) straight = premultiplied.slice();
    for (let channel = at; channel < at + 3; channel++)
      straight[channel] = opacity === 0 ? 0 : Math.round((255 * premultiplied[channel]!) / opacity);
  }
  return straight;
}
