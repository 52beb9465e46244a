import { expect, test } from "vitest";
import { delayOf, delayTable } from "#server/drift/delay";
import type { Pooled } from "#server/drift/parameters";
import { ewmaSpread } from "#server/statistics/ewmaChain";
import reference from "../files/reference/drift/clamped.json";

const PLAIN: Pooled = { omega: 0, rho: 0, d0: 10, s02: 1, worth: 1 };
const chart = (limit: number) => ({ lambda: 0.1, clamp: 3, edge: limit * ewmaSpread(0.1) });

test.each(reference.rows)("mean $mean, shift $shift: delays of known and of short references", (row) => {
  const known = delayOf(row.shift, null, PLAIN, chart(row.limit));
  expect(Math.abs((known.median ?? 0) - row.medianDelay)).toBeLessThanOrEqual(Math.max(1, 0.03 * row.medianDelay));
  expect(known.within[26]).toBeCloseTo(row.within26, 1);
  // expectations stand for the chance of a short reference, so these are near and not equal
  const twenty = delayOf(row.shift, 20, PLAIN, chart(row.limit));
  const sixty = delayOf(row.shift, 60, PLAIN, chart(row.limit));
  for (const [delay, [in26, in52]] of [
    [twenty, row.learnt20],
    [sixty, row.learnt60],
  ] as const) {
    expect(Math.abs(delay.within[26]! - in26!)).toBeLessThan(0.1);
    expect(Math.abs(delay.within[52]! - in52!)).toBeLessThan(0.13);
  }
});

test("a larger change and a longer history are found sooner; correlated days later", () => {
  const correlated: Pooled = { omega: 0.6, rho: 0.3, d0: 10, s02: 1, worth: 1 };
  const edge = chart(3.3);
  const found = (shift: number, learnt: number | null, pooled: Pooled) =>
    delayOf(shift, learnt, pooled, edge).within[20]!;
  expect(found(1.5, 40, PLAIN)).toBeGreaterThan(found(1, 40, PLAIN));
  expect(found(1, 80, PLAIN)).toBeGreaterThan(found(1, 30, PLAIN));
  expect(found(1, null, PLAIN)).toBeGreaterThan(found(1, null, correlated));
  expect(found(-1, 40, PLAIN)).toBeCloseTo(found(1, 40, PLAIN), 9);
});

test("what a short reference never finds has no number of days", () => {
  const table = delayTable([0.01, 0.1, 0.3], 0.06, 15, PLAIN, chart(4));
  expect(table.map(({ change }) => change)).toEqual([0.01, 0.1, 0.3]);
  expect(table[0]!.days).toBeNull();
  expect(table[2]!.days).toBeLessThan(10);
});
