import { expect, test } from "vitest";
import {
  DRIFT_SHARE,
  driftLimits,
  expectedSignals,
  mostWithOneIn95,
  plannedPoints,
  QUESTION_SHARE,
  RECORD_SHARE,
} from "#server/drift/accepted";
import { spikeLimit } from "#server/drift/spikes";
import { limitFor } from "#server/statistics/runLength";
import reference from "../files/reference/drift/clamped.json";
import { seeded } from "../statistics/seeded";

const long = (points: number) => [{ points, before: 5000 }];

test.each(reference.rows.filter((row) => row.shift === 1))(
  "$points points a month, $accepted accepted: limits of the reference table",
  (row) => {
    const reading = row.accepted === 1 ? "on-average" : "at-most-one-in-95-percent";
    const limits = driftLimits(long(row.points), 1, reading);
    // a twentieth longer than the table's mean, for care: a little wider than the table's limit
    expect(limits.limit - row.limit).toBeGreaterThan(0.005);
    expect(limits.limit - row.limit).toBeLessThan(0.025);
    expect(limits.limit).toBeCloseTo(limitFor({ chart: "ewma", lambda: 0.1, clamp: 3 }, 1.05 * limits.meanPoints), 9);
    expect(Math.abs(limits.meanPoints / row.mean - 1)).toBeLessThan(0.02);
    // the table gives single days a fifth of the accepted number
    const fifth = (limits.spikeChance * 0.2) / QUESTION_SHARE;
    expect(spikeLimit(new Float64Array(0), fifth)).toBeCloseTo(row.spikeT8, 2);
  },
);

test("the parts of the accepted number add up to it", () => {
  expect(DRIFT_SHARE + QUESTION_SHARE + RECORD_SHARE).toBeCloseTo(1, 12);
});

test("at most one in 95 % of months is 0.35536 on average", () => {
  // Poisson: exp(-B) (1 + B) = 0.95
  expect(mostWithOneIn95()).toBeCloseTo(0.35536, 5);
});

test("six sites with four measures and 26 days: 624 points, one signal in 780", () => {
  expect(driftLimits(long(624))).toMatchObject({
    expected: 1,
    pointsPerMonth: 624,
    meanPoints: 780,
    spikeChance: expect.closeTo(0.15 / 624, 12),
  });
  expect(expectedSignals(780, long(624))).toBeCloseTo(0.8, 9);
});

test("streams that have just begun count little, and a young programme keeps half its points", () => {
  const young = driftLimits(Array.from({ length: 10 }, () => ({ points: 26, before: -12 })));
  expect(young.ripePoints).toBeLessThan(0.35 * young.pointsPerMonth);
  expect(young.meanPoints).toBe(163); // half of 260 points / 0.8
  const grown = driftLimits(Array.from({ length: 10 }, () => ({ points: 26, before: 300 })));
  expect(grown.ripePoints / grown.pointsPerMonth).toBeGreaterThan(0.98);
  expect(expectedSignals(grown.meanPoints, [{ points: 5, before: -12 }])).toBe(0);
});

test("more accepted means narrower limits, and none accepted is refused", () => {
  expect(driftLimits(long(624), 3).edge).toBeLessThan(driftLimits(long(624), 1).edge);
  expect(() => driftLimits(long(624), 0)).toThrow("more than none");
});

test("planned points are the middle of the last three months", () => {
  expect(plannedPoints([900, 100, 620, 640])).toBe(620);
  expect(plannedPoints([600, 640])).toBe(620);
  expect(plannedPoints([])).toBe(0);
});

test("the limit of a spike is read from the scores where enough lie beyond it, and never from few", () => {
  const chance = seeded(6);
  const normal = Float64Array.from({ length: 50_000 }, chance.normal);
  const heavy = Float64Array.from({ length: 50_000 }, () => chance.heavy(5));
  const beyond = (scores: Float64Array, limit: number) => scores.filter((score) => Math.abs(score) > limit).length;
  expect(beyond(heavy, spikeLimit(heavy, 1 / 1000)) / 50_000).toBeCloseTo(1 / 1000, 4);
  expect(spikeLimit(heavy, 1 / 3120)).toBeGreaterThan(spikeLimit(normal, 1 / 3120));
  expect(spikeLimit(normal.subarray(0, 799), 1 / 3120)).toBeCloseTo(5.203, 3);
  // tails heavier than t8 widen what stands in: a worth of 1 / 4 is that of t5, of 4 / 7 that of t8
  expect(spikeLimit(normal.subarray(0, 10), 1 / 3120, 4 / 7)).toBeCloseTo(5.203, 3);
  expect(spikeLimit(normal.subarray(0, 10), 1 / 3120, 1 / 4)).toBeGreaterThan(6);
  // few beyond: carried on past the largest hundredth, wider than normal and not absurd
  const carried = spikeLimit(normal, 1 / 100_000);
  expect(carried).toBeGreaterThan(4.4);
  expect(carried).toBeLessThan(9);
});
