import { QUANTITY_MIME } from './mimeKinds.js';
import { isRecord } from './plainRecord.js';
import { isClose, type Tolerance } from './tolerance.js';
import type { Output } from './types.js';

/** A quantity as it stands in an output. */
export interface StatedNumber {
  readonly name: string;
  readonly unit: string;
  readonly value?: number;
  readonly standardUncertainty?: number;
  readonly interval95?: readonly number[];
  readonly absent?: string;
}

/** A quantity in two notebooks. */
export interface QuantityMove {
  readonly name: string;
  readonly unit: string;
  readonly a: StatedNumber | null;
  readonly b: StatedNumber | null;
  /** Value of b less value of a; null where one of both has none. */
  readonly change: number | null;
  /** Change over the root of the sum of both squared standard uncertainties; null without a change or uncertainties. */
  readonly inUncertainties: number | null;
  readonly isSame: boolean;
}

/**
 * What the quantities of a cell did from one notebook to the other.
 *
 * The change in parts of the combined uncertainty takes both results as independent. Where both come from the same
 * frames they are not, and a change that comes from them alone is smaller than this says.
 *
 * @param a - outputs of the cell in one notebook
 * @param b - outputs of the cell in the other
 * @param tolerance - for values, uncertainties and intervals
 * @returns one entry a name, in the order of a, then those of b alone
 * Source: the zeta score, ISO 13528, with both standard uncertainties (from memory).
 */
export function compareQuantities(
  a: readonly Output[],
  b: readonly Output[],
  tolerance: Tolerance,
): QuantityMove[] {
  const before = quantitiesIn(a);
  const after = quantitiesIn(b);
  return [...new Set([...before.keys(), ...after.keys()])].map((key) => {
    const [one, other] = [before.get(key) ?? null, after.get(key) ?? null];
    return move(one, other, tolerance);
  });
}

function move(a: StatedNumber | null, b: StatedNumber | null, tolerance: Tolerance): QuantityMove {
  const known = (a ?? b)!;
  const close = (x: number | undefined, y: number | undefined): boolean =>
    x === y || (x !== undefined && y !== undefined && isClose(x, y, tolerance));
  const isSame =
    a !== null &&
    b !== null &&
    a.unit === b.unit &&
    a.absent === b.absent &&
    close(a.value, b.value) &&
    close(a.standardUncertainty, b.standardUncertainty) &&
    (a.interval95?.length ?? 0) === (b.interval95?.length ?? 0) &&
    (a.interval95 ?? []).every((end, index) => close(end, b.interval95?.[index]));
  const comparable = a?.value !== undefined && b?.value !== undefined && a.unit === b.unit;
  const change = comparable ? b.value! - a.value! : null;
  const combined = comparable ? Math.hypot(a.standardUncertainty ?? 0, b.standardUncertainty ?? 0) : 0;
  return {
    name: known.name,
    unit: known.unit,
    a,
    b,
    change,
    inUncertainties: change === null || combined === 0 ? null : change / combined,
    isSame,
  };
}

function quantitiesIn(outputs: readonly Output[]): Map<string, StatedNumber> {
  const found = new Map<string, StatedNumber>();
  for (const output of outputs) {
    if (!('data' in output)) continue;
    const shown = output.data[QUANTITY_MIME];
    const list = isRecord(shown) && Array.isArray(shown['quantities']) ? shown['quantities'] : [shown];
    for (const item of list) {
      const stated = statedNumber(item);
      if (stated === null) continue;
      let key = stated.name;
      for (let further = 2; found.has(key); further++) key = `${stated.name} (${further})`;
      found.set(key, { ...stated, name: key });
    }
  }
  return found;
}

/** Takes only what has the right shape: the file may come from anywhere. */
function statedNumber(item: unknown): StatedNumber | null {
  if (!isRecord(item) || typeof item['name'] !== 'string') return null;
  const finite = (value: unknown): value is number => typeof value === 'number' && Number.isFinite(value);
  const { value, standardUncertainty, interval95, absent } = item;
  return {
    name: item['name'],
    unit: typeof item['unit'] === 'string' ? item['unit'] : '',
    ...(finite(value) ? { value } : {}),
    ...(finite(standardUncertainty) && standardUncertainty >= 0 ? { standardUncertainty } : {}),
    ...(Array.isArray(interval95) && interval95.every(finite) ? { interval95 } : {}),
    ...(typeof absent === 'string' ? { absent } : {}),
  };
}
