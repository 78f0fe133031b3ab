import { readDay } from './readDay.js';

/** When a frame was taken, as its file states it. */
export interface StatedTime {
  /** Such as `2025-03-14`. */
  readonly day: string;
  /** ms since 1970-01-01T00:00Z; null where the file states no time, or none of a known zone. */
  readonly ms: number | null;
}

const HEAD_LINES = 40;
const CARD = 80;
const ISO = /(\d{4}-\d{2}-\d{2})(?:[T ](\d{2}:\d{2}(?::\d{2}(?:\.\d+)?)?)\s?(Z|UTC|[+-]\d{2}:?\d{2})?)?/;
const OF_FRAME = /date|time|acquired|recorded|taken|started/i;
const OF_OTHERS = /calib|saved|export|print|version|made|birth|warrant/i;

/**
 * When a frame was taken: DATE-OBS of a FITS header, or a line in the head of a text that gives a date as ISO 8601.
 *
 * @param head - the first bytes of the file
 * @returns day and time; null where the file states none
 * Source: FITS Standard 4.0, section 9: DATE-OBS is UTC unless TIMESYS says otherwise.
 */
export function timeFromFile(head: Uint8Array): StatedTime | null {
  const text = new TextDecoder('latin1').decode(head);
  if (/^SIMPLE {2}=/.test(text)) return timeFromCards(text);
  for (const line of text.split(/\r?\n/).slice(0, HEAD_LINES)) {
    if (!OF_FRAME.test(line) || OF_OTHERS.test(line)) continue;
    const time = timeIn(line, '');
    if (time !== null) return time;
  }
  return null;
}

function timeFromCards(text: string): StatedTime | null {
  const cards = Array.from({ length: Math.floor(text.length / CARD) }, (_, k) =>
    text.slice(CARD * k, CARD * (k + 1)),
  );
  const end = cards.findIndex((card) => /^END\s*$/.test(card));
  const textOf = (name: string): string | undefined =>
    cards
      .slice(0, end < 0 ? undefined : end)
      .find((card) => card.startsWith(`${name.padEnd(8)}=`))
      ?.match(/'([^']*)'/)?.[1]
      ?.trim();
  const scale = textOf('TIMESYS') ?? 'UTC';
  return timeIn(textOf('DATE-OBS') ?? '', /^UTC?$/.test(scale) ? 'Z' : '');
}

function timeIn(text: string, zoneOfAll: string): StatedTime | null {
  const [, date = '', clock, ownZone] = ISO.exec(text) ?? [];
  const day = readDay(date);
  if (day === null) return null;
  const zone = ownZone === 'UTC' ? 'Z' : (ownZone ?? zoneOfAll);
  const ms = clock === undefined || zone === '' ? Number.NaN : Date.parse(`${day}T${clock}${zone}`);
  return { day, ms: Number.isFinite(ms) ? ms : null };
}
