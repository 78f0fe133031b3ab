import { isAbsent, type Quantity, quantity } from '../metrics/index.js';

/** Adds a further standard uncertainty in quadrature; an interval that is not symmetric stays so. */
export function widen(number: Quantity, further: (value: number) => number): Quantity {
  if (isAbsent(number)) return number;
  const { value, standardUncertainty, interval95 } = number;
  const more = quantity(0, further(value));
  const reach = (end: number): number => Math.hypot(end - value, more.interval95[1]);
  return {
    value,
    standardUncertainty: Math.hypot(standardUncertainty, more.standardUncertainty),
    interval95: [value - reach(interval95[0]), value + reach(interval95[1])],
  };
}
