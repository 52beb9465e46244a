import fc from "fast-check";
import { expect, test, vi } from "vitest";
import type { Pooled, Rules } from "#server/drift/parameters";
import { type Carried, SCORED, SCREENED, type Scored, SPIKE, scoreFrom, scoreSeries } from "#server/drift/score";
import { cut, type Series } from "#server/drift/series";

vi.setConfig({ testTimeout: 60_000 });

const anyDay = fc.record({
  gap: fc.integer({ min: 1, max: 80 }),
  value: fc.oneof(
    { weight: 30, arbitrary: fc.double({ min: -0.1, max: 0.1, noNaN: true }) },
    { weight: 1, arbitrary: fc.constantFrom(-2.3, 2.3, 0.4) },
  ),
  mass: fc.double({ min: 0.2, max: 300, noNaN: true }),
});
const anySeries = fc.array(anyDay, { minLength: 1, maxLength: 90, size: "max" }).map((days): Series => {
  let day = 20_000;
  return {
    day: Int32Array.from(days, ({ gap }) => (day += gap)),
    value: Float64Array.from(days, ({ value }) => value),
    mass: Float64Array.from(days, ({ mass }) => mass),
  };
});
const anyPooled = fc.constantFrom<Pooled>(
  { omega: 0.6, rho: 0.4, d0: 0, s02: 0, worth: 1 },
  { omega: 0.3, rho: 0.7, d0: 8, s02: 0.0025, worth: 0.4 },
  { omega: 0, rho: 0, d0: 0, s02: 0, worth: 1 },
);
const anyRules = fc.constantFrom<Rules>(
  { learn: 12, lambda: 0.1, clamp: 3, edge: 0.3, spikeAt: 5.2 },
  { learn: 0, lambda: 0.2, clamp: 3, edge: 0.5, spikeAt: 3.2 },
);

/** Scored piece by piece, what was carried going through text in between as it would through a table. */
function piecewise(series: Series, cuts: readonly number[], pooled: Pooled, rules: Rules): Scored {
  const ends = [...new Set([...cuts.map((at) => at % series.day.length), series.day.length])].sort((a, b) => a - b);
  let carried: Carried | null = null;
  let whole: Scored | null = null;
  let done = 0;
  for (const end of ends) {
    const piece = scoreFrom(carried, cut(series, done, end), pooled, rules);
    carried = JSON.parse(JSON.stringify(piece.carried)) as Carried;
    whole = whole === null ? piece.scored : { ...piece.scored, ...columnsJoined(whole, piece.scored, piece.from) };
    done = end;
  }
  return whole!;
}

function columnsJoined(before: Scored, after: Scored, from: number) {
  const of = (a: Float64Array, b: Float64Array) => Float64Array.from([...a.subarray(0, from), ...b]);
  return {
    state: Uint8Array.from([...before.state.subarray(0, from), ...after.state]),
    score: of(before.score, after.score),
    ewma: of(before.ewma, after.ewma),
    centre: of(before.centre, after.centre),
    spread: of(before.spread, after.spread),
    degrees: of(before.degrees, after.degrees),
    crossings: [...before.crossings.filter((at) => at < from), ...after.crossings.map((at) => at + from)],
  };
}

test("scoring day by day, or in any pieces, gives to the last bit what the whole gives", () => {
  const seen = { screened: 0, spikes: 0, crossings: 0, short: 0 };
  fc.assert(
    fc.property(
      anySeries,
      fc.array(fc.nat(), { maxLength: 12 }),
      anyPooled,
      anyRules,
      (series, cuts, pooled, rules) => {
        const whole = scoreSeries(series, pooled, rules);
        expect(piecewise(series, cuts, pooled, rules)).toEqual(whole);
        seen.screened += whole.state.includes(SCREENED) ? 1 : 0;
        seen.spikes += whole.state.includes(SPIKE) ? 1 : 0;
        seen.crossings += whole.crossings.length;
        seen.short += whole.state.some((state) => state >= SCORED) ? 0 : 1;
      },
    ),
    { numRuns: 250, seed: 4 },
  );
  // the cases that are hard to carry on were among them
  expect(
    Object.values(seen).every((count) => count > 20),
    JSON.stringify(seen),
  ).toBe(true);
});

test("one day after another is the same again", () => {
  fc.assert(
    fc.property(anySeries, anyPooled, anyRules, (series, pooled, rules) => {
      const every = Array.from({ length: series.day.length }, (_, i) => i);
      expect(piecewise(series, every, pooled, rules)).toEqual(scoreSeries(series, pooled, rules));
    }),
    { numRuns: 60, seed: 5 },
  );
});

test("learning days come again until they are complete, then new days come alone", () => {
  const series: Series = {
    day: Int32Array.from({ length: 20 }, (_, i) => i),
    value: Float64Array.from({ length: 20 }, (_, i) => Math.sin(7 * i)),
    mass: new Float64Array(20).fill(1),
  };
  const pooled = { omega: 0, rho: 0, d0: 0, s02: 0, worth: 1 };
  const rules = { learn: 12, lambda: 0.1, clamp: 3, edge: 1, spikeAt: 9 };
  const first = scoreFrom(null, cut(series, 0, 11), pooled, rules);
  const second = scoreFrom(first.carried, cut(series, 11, 13), pooled, rules);
  const third = scoreFrom(second.carried, cut(series, 13, 20), pooled, rules);
  expect([first, second, third].map(({ from, scored }) => [from, scored.state.length])).toEqual([
    [0, 11],
    [0, 13],
    [13, 7],
  ]);
  expect(third.carried).toMatchObject({ learning: null, days: 20 });
});
