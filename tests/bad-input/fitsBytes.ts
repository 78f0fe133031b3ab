/** One card of 80 characters: keyword, value indicator, value. */
export function card(keyword: string, value: string): string {
  return `${keyword.padEnd(8)}= ${value.padStart(20)}`.padEnd(80);
}

/** A header of cards, closed by END and filled up to whole blocks of 2880 bytes. */
export function fitsHeader(cards: readonly string[]): Uint8Array {
  const text = [...cards, 'END'.padEnd(80)].join('');
  return new TextEncoder().encode(text.padEnd(Math.ceil(text.length / 2880) * 2880));
}

/** Data filled up with zero bytes to whole blocks. */
export function fitsData(data: Uint8Array): Uint8Array {
  const out = new Uint8Array(Math.ceil(data.length / 2880) * 2880);
  out.set(data);
  return out;
}

/** Puts byte arrays behind each other. */
export function joined(...parts: readonly Uint8Array[]): Uint8Array {
  const out = new Uint8Array(parts.reduce((n, part) => n + part.length, 0));
  let at = 0;
  for (const part of parts) {
    out.set(part, at);
    at += part.length;
  }
  return out;
}

/** A primary image of 16-bit integers as stored, big-endian. */
export function fitsImage16(
  axes: readonly number[],
  stored: ArrayLike<number>,
  extra: readonly string[] = [],
): Uint8Array {
  const data = new Uint8Array(2 * stored.length);
  const view = new DataView(data.buffer);
  for (let i = 0; i < stored.length; i++) view.setInt16(2 * i, stored[i]!);
  const cards = [card('SIMPLE', 'T'), card('BITPIX', '16'), card('NAXIS', String(axes.length))];
  axes.forEach((n, i) => {
    cards.push(card(`NAXIS${i + 1}`, String(n)));
  });
  return joined(fitsHeader([...cards, ...extra]), fitsData(data));
}
