import { expect, test } from "vitest";
import { driftLimits } from "#server/drift/accepted";
import { dayChart } from "#server/drift/dayChart";
import { CLAMP, DEFAULTS, LAMBDA, LEARN, type Pooled, type Rules } from "#server/drift/parameters";
import { lifeOf } from "#server/drift/reference";
import { type DayPoint, seriesOf, seriesOfValues } from "#server/drift/series";
import { watchStream } from "#server/drift/watch";
import type { Acknowledged, DeclaredChange } from "#server/terms/signal";
import { seeded } from "../statistics/seeded";
import { workingDays } from "./streams";

const POOLED: Pooled = { omega: 0.3, rho: 0.1, d0: 10, s02: 0.0025, worth: 1 };
const RULES: Rules = {
  learn: LEARN,
  lambda: LAMBDA,
  clamp: CLAMP,
  edge: driftLimits([{ points: 1000, before: 500 }]).edge,
  spikeAt: 5.2,
};

function watched(points: readonly DayPoint[], declared: DeclaredChange[] = [], acknowledged: Acknowledged[] = []) {
  return watchStream(seriesOf(points).series, lifeOf(declared, acknowledged), POOLED, RULES);
}

test("a rise of 10 % is found, with its day and its size", () => {
  const points = workingDays(1, 90, { at: 60, times: 1.1 });
  const [only] = watched(points);
  const [signal] = only!.signals;
  const changed = points[60]!.day;
  expect(only!.state).toBe("running");
  expect(signal!.direction).toBe("up");
  expect(signal!.dateDetermined).toBe(true);
  expect(signal!.sinceFrom <= changed && changed <= signal!.sinceTo).toBe(true);
  expect(signal!.raisedOn > changed && signal!.raisedOn <= points[75]!.day).toBe(true);
  expect(signal!.low).toBeLessThan(0.1);
  expect(signal!.high).toBeGreaterThan(0.1);
  expect(signal!.after / signal!.before).toBeCloseTo(1 + signal!.change, 9);
  expect(signal!.confirms).toBeNull();
  // about 12 kg fresh on 26 of 30 days, a tenth of a third of it
  expect(signal!.per30Days).toBeGreaterThan(5);
  expect(signal!.per30Days).toBeLessThan(20);
});

test("a change that stays is one signal, said again and not anew", () => {
  const points = workingDays(4, 120, { at: 50, times: 0.85 });
  const signals = watched(points)[0]!.signals;
  expect(signals.length).toBeGreaterThan(1);
  expect(signals.filter((signal) => signal.confirms === null)).toHaveLength(1);
  expect(signals.slice(1).every((signal) => signal.confirms === signals[0]!.raisedOn)).toBe(true);
  const changed = points[50]!.day;
  expect(signals.every((signal) => signal.sinceFrom <= changed && changed <= signal.sinceTo)).toBe(true);
});

test("a second change in the other direction is a second signal", () => {
  const points = workingDays(6, 150, { at: 50, times: 0.85 }).map((point, i) =>
    i < 100 ? point : { ...point, numerator: (point.numerator / 0.85) * 1.1 },
  );
  const told = watched(points)[0]!.signals.filter((signal) => signal.confirms === null);
  expect(told.map((signal) => signal.direction)).toEqual(["down", "up"]);
  expect(told[1]!.sinceFrom <= points[100]!.day && points[100]!.day <= told[1]!.sinceTo).toBe(true);
});

test("a tenfold typing error is a question about the record and no signal, and delays a real one by little", () => {
  let later = 0;
  for (let seed = 1; seed <= 25; seed++) {
    const points = workingDays(seed, 120, { at: 60, times: 1.12 });
    const wrong = points.map((point, i) => (i === 55 ? { ...point, numerator: point.numerator / 10 } : point));
    const [clean] = watched(points);
    const [spoilt] = watched(wrong);
    const first = (signals: typeof clean) =>
      signals!.signals.find((signal) => signal.raisedOn > points[60]!.day)?.raisedOn;
    expect(
      spoilt!.questions.map((question) => question.day),
      `seed ${seed}`,
    ).toContain(points[55]!.day);
    const place = (day: string | undefined) => points.findIndex((point) => point.day === day);
    expect(place(first(clean)), `seed ${seed}`).toBeGreaterThan(0);
    const delay = place(first(spoilt)) - place(first(clean));
    expect(delay, `seed ${seed}`).toBeLessThanOrEqual(9);
    later += delay;
  }
  expect(later / 25).toBeLessThan(3);
});

test("a change declared and a change found and acknowledged leave the same reference behind", () => {
  const points = workingDays(9, 120, { at: 60, times: 1.15 });
  const from = points[60]!.day;
  const declared = watched(points, [{ from, what: "pan" }]);
  const found = watched(points, [], [{ kind: "real-change", from }]);
  expect(found.map(({ scored, signals, questions }) => ({ scored, signals, questions }))).toEqual(
    declared.map(({ scored, signals, questions }) => ({ scored, signals, questions })),
  );
  expect(declared.map(({ state }) => state)).toEqual(["ended", "running"]);
  expect(declared.flatMap(({ signals }) => signals)).toEqual([]);
});

test("kilograms or grams make no difference to scores, signals and dates", () => {
  const points = workingDays(3, 100, { at: 60, times: 1.12 });
  const inKg = watched(points)[0]!;
  const inGrams = watched(
    points.map((point) => ({ ...point, numerator: point.numerator * 1000, denominator: point.denominator * 1000 })),
  )[0]!;
  expect(inGrams.signals.map(({ raisedOn, sinceFrom, sinceTo }) => [raisedOn, sinceFrom, sinceTo])).toEqual(
    inKg.signals.map(({ raisedOn, sinceFrom, sinceTo }) => [raisedOn, sinceFrom, sinceTo]),
  );
  inKg.scored.score.forEach((score, i) => {
    expect(inGrams.scored.score[i]).toBeCloseTo(score, 9);
  });
});

test("row order leaves no trace, and later days do not change earlier scores", () => {
  const points = workingDays(5, 80, { at: 50, times: 1.1 });
  expect(watched([...points].reverse())).toEqual(watched(points));
  const shorter = watched(points.slice(0, 60))[0]!;
  const longer = watched(points)[0]!;
  expect(Array.from(longer.scored.score.subarray(0, 60))).toEqual(Array.from(shorter.scored.score));
});

test("eleven days are learning and raise nothing", () => {
  const [only] = watched(workingDays(1, 11));
  expect(only).toMatchObject({ state: "learning", signals: [], questions: [] });
  expect(watched([])).toEqual([]);
});

test("a level that jumps far is a change and not many questions", () => {
  const [only] = watched(workingDays(2, 80, { at: 60, times: 2 }));
  expect(only!.signals[0]!.change).toBeCloseTo(1, 0);
  expect(only!.questions).toEqual([]);
});

test("the day chart has wider limits on thin days and early on, and hides them while learning", () => {
  const points = workingDays(7, 60);
  const { series } = seriesOf(
    points.map((point, i) =>
      i === 40 ? { ...point, numerator: point.numerator / 8, denominator: point.denominator / 8 } : point,
    ),
  );
  const [only] = watchStream(series, lifeOf([], []), POOLED, RULES);
  const days = dayChart(only!.series, only!.scored, POOLED, RULES);
  expect(days[5]).toMatchObject({ state: "learning", low: null, high: null, centre: null, score: null });
  const width = (i: number) => Math.log(days[i]!.high! / days[i]!.low!);
  expect(width(40)).toBeGreaterThan(1.5 * width(41));
  expect(width(12)).toBeGreaterThan(width(59));
  expect(days.every(({ low, high, value }) => low === null || (low < value && value < high!))).toBe(true);
});

test("a series of plain values is watched on its own scale", () => {
  const chance = seeded(12);
  const points = Array.from({ length: 80 }, (_, i) => ({
    day: new Date(Date.UTC(2031, 0, 1 + i)).toISOString().slice(0, 10),
    value: (i < 50 ? -3 : 1) + chance.normal(),
  }));
  const [only] = watchStream(seriesOfValues(points), lifeOf([], []), { ...DEFAULTS, omega: 0, rho: 0 }, RULES, "value");
  expect(only!.signals[0]!.change).toBeGreaterThan(3);
  expect(only!.signals[0]!.change).toBeLessThan(5);
  expect(only!.signals[0]!.before).toBeCloseTo(-3, 0);
});
