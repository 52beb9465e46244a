/** Mean by a second pass over what the first left, so that a large common part costs no digits; NaN-free for 1 value on. */
export function mean(values: ArrayLike<number>): number {
  if (values.length === 0) throw new Error("nothing has no mean");
  let total = 0;
  for (let i = 0; i < values.length; i++) total += values[i]!;
  const near = total / values.length;
  let rest = 0;
  for (let i = 0; i < values.length; i++) rest += values[i]! - near;
  return near + rest / values.length;
}

/** Standard deviation with divisor n - 1, from deviations corrected for their own sum; null for fewer than two values. */
export function standardDeviation(values: ArrayLike<number>): number | null {
  if (values.length < 2) return null;
  const middle = mean(values);
  let squares = 0;
  let rest = 0;
  for (let i = 0; i < values.length; i++) {
    const deviation = values[i]! - middle;
    squares += deviation * deviation;
    rest += deviation;
  }
  return Math.sqrt((squares - (rest * rest) / values.length) / (values.length - 1));
}

/** Correlation of each value with the one before, about the common mean; null where nothing varies. */
export function lagOne(values: ArrayLike<number>): number | null {
  if (values.length < 2) return null;
  const middle = mean(values);
  let products = 0;
  let squares = 0;
  let before = 0;
  for (let i = 0; i < values.length; i++) {
    const deviation = values[i]! - middle;
    squares += deviation * deviation;
    products += deviation * before;
    before = deviation;
  }
  return squares === 0 ? null : products / squares;
}

/** Middle value; of an even number of values half-way between the two middle ones. Null for none. */
export function median(values: ArrayLike<number>): number | null {
  if (values.length === 0) return null;
  const sorted = Float64Array.from(values).sort();
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}

/** Median distance from the median; × 1.4826 it is the standard deviation of normal values. Null for none. */
export function medianDeviation(values: ArrayLike<number>): number | null {
  const middle = median(values);
  return middle === null ? null : median(Float64Array.from(values, (value) => Math.abs(value - middle)));
}
