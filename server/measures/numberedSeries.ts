import { isWithin, type Period } from "./period";

/** A batch's declared number and its day. */
export interface Numbered {
  readonly number: string;
  readonly day: string;
}

/** What an unbroken series of batch numbers says about a period. */
export interface Series {
  readonly owed: number;
  /** numbers of the period's stretch that no batch of the site carries */
  readonly gaps: readonly number[];
}

/**
 * Batches owed by an unbroken series of numbers: the last number of the period less the last one before it.
 *
 * In a site's first period: last − first + 1. Null when the period has no number, or the series starts again, so that
 * the last number is not above the one before; then the schedule must say. `batches` are all numbered batches of the
 * site that are known, so that a number logged in another month is not called a gap.
 *
 * numberedSeries([40 in May; 41, 42, 45 in June], June) // owed 5, gaps 43 and 44
 */
export function numberedSeries(batches: readonly Numbered[], period: Period): Series | null {
  const read = batches.flatMap(({ number, day }) => {
    const counted = seriesNumber(number);
    return counted === null ? [] : [{ counted, day }];
  });
  const here = read.filter(({ day }) => isWithin(day, period)).map(({ counted }) => counted);
  const before = read.filter(({ day }) => day < period.from).map(({ counted }) => counted);
  if (here.length === 0) return null;
  const last = highest(here);
  const start = before.length > 0 ? highest(before) : lowest(here) - 1;
  if (last <= start) return null;
  const known = new Set(read.map(({ counted }) => counted));
  const gaps: number[] = [];
  for (let number = start + 1; number < last && gaps.length < MOST_GAPS; number++) {
    if (!known.has(number)) gaps.push(number);
  }
  return { owed: last - start, gaps };
}

/** A mistyped number ("20310417") must not fill a page with gaps. */
const MOST_GAPS = 500;

/** The counting part of a batch's number: "B-0417" is 417; null when it ends in no digits. */
export function seriesNumber(number: string): number | null {
  const digits = /(\d{1,9})\D*$/.exec(number)?.[1];
  return digits === undefined ? null : Number(digits);
}

function highest(numbers: readonly number[]): number {
  return numbers.reduce((best, number) => Math.max(best, number));
}

function lowest(numbers: readonly number[]): number {
  return numbers.reduce((best, number) => Math.min(best, number));
}
