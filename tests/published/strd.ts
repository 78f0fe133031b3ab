import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** A certified linear set. */
export interface LinearSet {
  readonly estimates: number[];
  readonly standardDeviations: number[];
  readonly residualStandardDeviation: number;
  readonly y: number[];
  /** One row of predictors for each value. */
  readonly x: number[][];
}

/** A certified nonlinear set. */
export interface NonlinearSet {
  readonly name: string;
  readonly level: string;
  readonly starts: number[][];
  readonly certified: number[];
  readonly standardDeviations: number[];
  readonly residualSumOfSquares: number;
  readonly residualStandardDeviation: number;
  readonly y: number[];
  readonly x: number[];
}

const read = (file: string): string =>
  readFileSync(fileURLToPath(new URL(`strd/${file}`, import.meta.url)), 'utf8');

/** Reads a linear `.dat` file. */
export function readLinearSet(name: string): LinearSet {
  const lines = read(`${name}.dat`).split('\n');
  const parameters = lines
    .map((line) => /^\s*B\d+\s+(\S+)\s+(\S+)\s*$/.exec(line))
    .filter((match) => match !== null);
  const deviation = lines
    .map((line) => /^\s*Standard Deviation\s+(\S+)/.exec(line))
    .find((match) => match !== null);
  const first = lines.findIndex((line) => /^Data:\s+y/.test(line)) + 1;
  const rows = lines
    .slice(first)
    .filter((line) => line.trim() !== '')
    .map((line) => line.trim().split(/\s+/).map(Number));
  return {
    estimates: parameters.map((match) => Number(match[1])),
    standardDeviations: parameters.map((match) => Number(match[2])),
    residualStandardDeviation: Number(deviation?.[1]),
    y: rows.map((row) => row[0]!),
    x: rows.map((row) => row.slice(1)),
  };
}

/** Reads all nonlinear sets. */
export function readNonlinearSets(): NonlinearSet[] {
  return JSON.parse(read('nonlinear/data.json')).sets;
}

/** Digits that agree, the worst of all: -log10 of the relative error, of the absolute one where 0 is certified. */
export function agreeingDigits(found: ArrayLike<number>, certified: readonly number[]): number {
  const digits = certified.map(
    (value, i) => -Math.log10(Math.abs(found[i]! - value) / (Math.abs(value) || 1)),
  );
  return Math.min(...digits, 15.9);
}
