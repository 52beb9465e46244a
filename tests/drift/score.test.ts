import { expect, test } from "vitest";
import type { Pooled, Rules } from "#server/drift/parameters";
import { LEARNING, SCORED, SCREENED, SPIKE, scoreSeries } from "#server/drift/score";
import type { Series } from "#server/drift/series";
import { ewmaSpread } from "#server/statistics/ewmaChain";
import reference from "../files/reference/drift/scores.json";
import short from "../files/reference/drift/shortHistory.json";
import { seeded } from "../statistics/seeded";

const ALL: Rules = {
  learn: 0,
  lambda: 0.1,
  clamp: 3,
  edge: Number.POSITIVE_INFINITY,
  spikeAt: Number.POSITIVE_INFINITY,
};
const PLAIN: Pooled = { omega: 0, rho: 0, d0: 0, s02: 0, worth: 1 };

/** v is the usual mass over the mass; with learn 0 the usual mass is the first day's. */
function series(
  values: readonly number[],
  v: readonly number[] = values.map(() => 1),
  day?: readonly number[],
): Series {
  return {
    day: Int32Array.from(day ?? values.map((_, i) => i)),
    value: Float64Array.from(values),
    mass: Float64Array.from(v, (share) => 1 / share),
  };
}

/** Surprise over its standard deviation for a spread of one, out of the t that the engine worked out. */
function recursiveResiduals(of: Series, pooled: Pooled): number[] {
  const unit = scoreSeries(of, { ...pooled, d0: 1e18, s02: 1, worth: 1 }, ALL);
  return Array.from(of.value, (value, i) => (value - unit.centre[i]!) / unit.spread[i]!).slice(1);
}

const { A, B, C, D } = reference;

test.each([
  { said: "equal days", of: series(A.values), pooled: PLAIN, u: A.u },
  { said: "days of unequal mass", of: series(B.values, B.v), pooled: PLAIN, u: B.u },
  {
    said: "correlated days with gaps",
    of: series(C.values, C.v, C.day),
    pooled: { ...PLAIN, omega: C.omega, rho: C.rho },
    u: C.u,
  },
])("surprises are the recursive residuals of $said", ({ of, pooled, u }) => {
  recursiveResiduals(of, pooled).forEach((residual, i) => {
    expect(Math.abs(residual / u[i]! - 1), `${i}`).toBeLessThan(1e-8);
  });
});

test.each([
  { said: "with the spread unknown", of: series(A.values), pooled: PLAIN, q: A.q, from: 2 },
  { said: "with unequal masses", of: series(B.values, B.v), pooled: PLAIN, q: B.q, from: 2 },
  {
    said: "with a moderated spread",
    of: series(B.values, B.v),
    pooled: { ...PLAIN, d0: D.d0, s02: D.s02 },
    q: D.q,
    from: 1,
  },
])("scores $said have the tails of R", ({ of, pooled, q, from }) => {
  const { score, state } = scoreSeries(of, pooled, ALL);
  expect(state[from - 1]).toBe(LEARNING);
  q.forEach((expected, i) => {
    expect(Math.abs(score[from + i]! / expected - 1), `${i}`).toBeLessThan(2e-8);
  });
});

test("scores are standard normal and independent however short the history and unequal the days", () => {
  const chance = seeded(5);
  const pooled: Pooled = { omega: 0.5, rho: 0.4, d0: 6, s02: 0.002, worth: 1 };
  const scores: number[] = [];
  let products = 0;
  for (let run = 0; run < 800; run++) {
    // the stream's own spread comes from the law that the moderation assumes
    let chi = 0;
    for (let i = 0; i < 6; i++) chi += chance.normal() ** 2;
    const s = Math.sqrt((6 * 0.002) / chi);
    const days: number[] = [];
    const mass: number[] = [];
    const values: number[] = [];
    let luck = chance.normal() * Math.sqrt(0.5) * s;
    for (let i = 0, day = 0; i < 30; i++) {
      const gap = 1 + Math.floor(chance.uniform() * 3);
      const r = 0.4 ** gap;
      luck = r * luck + chance.normal() * Math.sqrt(0.5 * (1 - r * r)) * s;
      day += gap;
      days.push(day);
      mass.push(i === 0 ? 1 : 0.3 + 2 * chance.uniform());
      values.push(-1 + luck + chance.normal() * Math.sqrt(0.5 / mass[i]!) * s);
    }
    const { score } = scoreSeries(
      {
        ...series(
          values,
          mass.map((m) => 1 / m),
          days,
        ),
      },
      pooled,
      ALL,
    );
    for (let i = 2; i < 30; i++) {
      scores.push(score[i]!);
      products += score[i]! * score[i - 1]!;
    }
  }
  const share = (beyond: number) => scores.filter((q) => Math.abs(q) > beyond).length / scores.length;
  expect(share(1.959964)).toBeGreaterThan(0.0465);
  expect(share(1.959964)).toBeLessThan(0.0535);
  expect(share(2.807)).toBeGreaterThan(0.0035);
  expect(share(2.807)).toBeLessThan(0.0066);
  expect(Math.abs(products / scores.length)).toBeLessThan(0.02);
});

test("a day far outside is scored and pulls the chart once, and teaches nothing", () => {
  const chance = seeded(3);
  const values = Array.from({ length: 60 }, () => chance.normal() * 0.05);
  const rules: Rules = { ...ALL, learn: 12, spikeAt: 5.2 };
  const calm = scoreSeries(series(values), PLAIN, rules);
  const wrong = scoreSeries(series(values.with(30, Math.log(10))), PLAIN, rules);
  expect(wrong.state[30]).toBe(SPIKE);
  expect(wrong.score[30]).toBeGreaterThan(7);
  expect(wrong.ewma[30]).toBeCloseTo(0.9 * wrong.ewma[29]! + 0.3, 12);
  expect(Math.abs(wrong.score[40]! - calm.score[40]!)).toBeLessThan(0.1);
  expect(wrong.spread[59]! / calm.spread[59]!).toBeCloseTo(1, 1);
});

test("a tenfold learning day is screened out, an honest one is not", () => {
  const chance = seeded(4);
  const values = Array.from({ length: 30 }, () => chance.normal() * 0.05);
  const rules: Rules = { ...ALL, learn: 12, spikeAt: 5.2 };
  const { state } = scoreSeries(series(values.with(4, values[4]! - Math.log(10))), PLAIN, rules);
  expect(state[4]).toBe(SCREENED);
  expect(Array.from(state).filter((one) => one === SCREENED)).toHaveLength(1);
  expect(state[11]).toBe(LEARNING);
  expect(state[12]).toBe(SCORED);
});

test("equal values have no spread and get no score", () => {
  const { state, crossings } = scoreSeries(series(Array(20).fill(2)), PLAIN, { ...ALL, learn: 12 });
  expect(Array.from(state).every((one) => one === LEARNING)).toBe(true);
  expect(crossings).toEqual([]);
});

test.each(short.rows)(
  "after $days days, spread $spread, a shift of $shift is signalled as often as in the table",
  (row) => {
    const chance = seeded(100 + row.days);
    const runs = 1500;
    const edge = short.limit * ewmaSpread(0.1);
    const rules: Rules = { ...ALL, learn: row.days, clamp: Number.POSITIVE_INFINITY, edge };
    // a spread known beforehand is one that so many squared deviations told that no day adds to it
    const pooled = row.spread === "known" ? { ...PLAIN, d0: 1e9, s02: 1 } : PLAIN;
    let [in26, in52] = [0, 0];
    for (let run = 0; run < runs; run++) {
      const values = Array.from({ length: row.days + 52 }, (_, i) => chance.normal() + (i < row.days ? 0 : row.shift));
      const [first] = scoreSeries(series(values), pooled, rules).crossings;
      if (first !== undefined && first < row.days + 26) in26++;
      if (first !== undefined) in52++;
    }
    const near = (expected: number) => 4 * Math.sqrt((expected * (1 - expected)) / runs) + 0.006;
    expect(Math.abs(in26 / runs - row.within26)).toBeLessThan(near(row.within26));
    expect(Math.abs(in52 / runs - row.within52)).toBeLessThan(near(row.within52));
  },
);
