import { dayNumber } from "#server/terms/days";

/** One point of a stream as it comes from the day sums. */
export interface DayPoint {
  readonly day: string;
  readonly numerator: number;
  readonly denominator: number;
}

/** The same in columns; days as days since 1970-01-01. */
export interface DayColumns {
  readonly day: ArrayLike<number>;
  readonly numerator: ArrayLike<number>;
  readonly denominator: ArrayLike<number>;
}

/** One stream ready to be scored: ascending, no day twice. `mass` is the day's denominator. */
export interface Series {
  readonly day: Int32Array;
  readonly value: Float64Array;
  readonly mass: Float64Array;
}

export interface SeriesRead {
  readonly series: Series;
  /** days whose ratio has no logarithm: nothing in the numerator, or nothing to divide by */
  readonly unusable: readonly number[];
}

/** A stream of ratios from points in any order: points of one day are added up, the value is log(num / den). */
export function seriesOf(points: readonly DayPoint[]): SeriesRead {
  return seriesOfColumns({
    day: points.map((point) => dayNumber(point.day)),
    numerator: points.map((point) => point.numerator),
    denominator: points.map((point) => point.denominator),
  });
}

/** The same from columns. The logarithm makes a change of unit a shift of everything, which no score sees. */
export function seriesOfColumns(columns: DayColumns): SeriesRead {
  const { day, numerator, denominator } = ascending(columns) ? columns : inOrder(columns);
  const count = day.length;
  const series = { day: new Int32Array(count), value: new Float64Array(count), mass: new Float64Array(count) };
  const unusable: number[] = [];
  let used = 0;
  for (let i = 0; i < count; i++) {
    const [num, den] = [numerator[i]!, denominator[i]!];
    if (!(num > 0 && den > 0)) {
      unusable.push(day[i]!);
      continue;
    }
    series.day[used] = day[i]!;
    series.value[used] = Math.log(num / den);
    series.mass[used++] = den;
  }
  return { series: used === count ? series : cut(series, 0, used), unusable };
}

/** A stream of plain values, each day as heavy as any other: for series that are no ratio. */
export function seriesOfValues(points: readonly { readonly day: string; readonly value: number }[]): Series {
  const sorted = [...points].sort((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : 0));
  return {
    day: Int32Array.from(sorted, (point) => dayNumber(point.day)),
    value: Float64Array.from(sorted, (point) => point.value),
    mass: new Float64Array(sorted.length).fill(1),
  };
}

/** Points `from` up to but not including `to`. */
export function cut(series: Series, from: number, to: number): Series {
  return {
    day: series.day.subarray(from, to),
    value: series.value.subarray(from, to),
    mass: series.mass.subarray(from, to),
  };
}

/** Two stretches of one stream as one: the first, then the second. */
export function joined(
  first: { readonly [column in keyof Series]: ArrayLike<number> },
  second: { readonly [column in keyof Series]: ArrayLike<number> },
): Series {
  return {
    day: Int32Array.from([...Array.from(first.day), ...Array.from(second.day)]),
    value: Float64Array.from([...Array.from(first.value), ...Array.from(second.value)]),
    mass: Float64Array.from([...Array.from(first.mass), ...Array.from(second.mass)]),
  };
}

/** Place of the first day on or after `from`: the series' length when there is none. */
export function placeOf(day: Int32Array, from: number): number {
  let [low, high] = [0, day.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (day[middle]! < from) low = middle + 1;
    else high = middle;
  }
  return low;
}

function ascending({ day }: DayColumns): boolean {
  for (let i = 1; i < day.length; i++) if (day[i]! <= day[i - 1]!) return false;
  return true;
}

/** Sorted by day and added up within it; within a day by size, so that the order of arrival leaves no trace. */
function inOrder({ day, numerator, denominator }: DayColumns): DayColumns {
  const order = Array.from({ length: day.length }, (_, i) => i);
  order.sort((a, b) => day[a]! - day[b]! || denominator[a]! - denominator[b]! || numerator[a]! - numerator[b]!);
  const out = { day: [] as number[], numerator: [] as number[], denominator: [] as number[] };
  for (const i of order) {
    const last = out.day.length - 1;
    if (out.day[last] === day[i]) {
      out.numerator[last] = out.numerator[last]! + numerator[i]!;
      out.denominator[last] = out.denominator[last]! + denominator[i]!;
    } else {
      out.day.push(day[i]!);
      out.numerator.push(numerator[i]!);
      out.denominator.push(denominator[i]!);
    }
  }
  return out;
}
