import { absent, type Quantity } from '../metrics/index.js';
import { summaryOf } from './summaryOf.js';

/** What a filter is worth against another, or against none. */
export interface FilterValue {
  /** Hours with this filter that equal a clear night with the reference. */
  readonly hoursToEqual: Quantity;
  /** The night less those hours; below 0 where the filter costs time. */
  readonly hoursSaved: Quantity;
  /** Price over the hours saved in `nights` clear nights, in the currency as given. */
  readonly pricePerHour: (Quantity & { readonly currency?: string }) | { readonly absent: string };
}

/** The night, the price and for how many nights. */
export interface ValueOptions {
  /** Hours of a clear night with the reference, above 0. @default 8 */
  readonly nightHours?: number;
  /** Clear nights that the filter serves, above 0. @default 1 */
  readonly nights?: number;
  readonly price: { readonly amount: number; readonly currency: string } | null;
}

/**
 * Hours to equal signal to noise per clear night, and the price of each hour saved.
 *
 * @param quality - trials of the square of signal to noise per second with the filter
 * @param reference - the same with the reference, as many trials or one number
 * @param options - night and price; nothing is converted
 * @returns numbers with intervals, or why there are none
 * @throws {RangeError} a night or count not above 0, a price below 0, trials of different length
 * Source: equal signal to noise is reached when the products of quality and time are equal.
 */
export function filterValue(
  quality: Float64Array,
  reference: Float64Array | number,
  options: ValueOptions,
): FilterValue {
  const { nightHours = 8, nights = 1, price } = options;
  if (!(nightHours > 0 && nightHours < Infinity))
    throw new RangeError(`filterValue requires a night above 0 hours, got ${nightHours}`);
  if (!(nights > 0 && nights < Infinity))
    throw new RangeError(`filterValue requires nights above 0, got ${nights}`);
  if (price !== null && !(price.amount >= 0 && price.amount < Infinity))
    throw new RangeError(`filterValue requires a price of 0 or more, got ${price.amount}`);
  if (typeof reference !== 'number' && reference.length !== quality.length) {
    throw new RangeError(
      `filterValue requires as many trials of the reference, got ${reference.length} for ${quality.length}`,
    );
  }
  const hours = quality.map(
    (value, k) => (nightHours * (typeof reference === 'number' ? reference : reference[k]!)) / value,
  );
  const saved = hours.map((value) => nightHours - value);
  const hoursToEqual = summaryOf(hours, 'the filter passes no light of the line');
  const hoursSaved = summaryOf(saved, 'the filter passes no light of the line');
  if (price === null) return { hoursToEqual, hoursSaved, pricePerHour: absent('no price is stated') };
  if ('absent' in hoursSaved) return { hoursToEqual, hoursSaved, pricePerHour: hoursSaved };
  // A price per hour has no meaning where the saving may be nothing or less.
  if (!(hoursSaved.interval95[0] > 0)) {
    const why = hoursSaved.interval95[1] > 0 ? 'it is not sure that it saves time' : 'it saves no time';
    return { hoursToEqual, hoursSaved, pricePerHour: absent(why) };
  }
  const each = saved.map((value) => (value > 0 ? price.amount / (value * nights) : Number.NaN));
  const perHour = summaryOf(each, 'it is not sure that it saves time');
  return {
    hoursToEqual,
    hoursSaved,
    pricePerHour: 'absent' in perHour ? perHour : { ...perHour, currency: price.currency },
  };
}
