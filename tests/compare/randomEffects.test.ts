import { expect, test } from "vitest";
import { spreadOf } from "#server/compare/randomEffects";
import { shrunken } from "#server/compare/shrunken";
import bcg from "../files/reference/compare/bcg.json";
import schools from "../files/reference/compare/eightSchools.json";
import players from "../files/reference/compare/players.json";
import { seeded } from "../statistics/seeded";

const trials = bcg.y.map((value, i) => ({ value, se: Math.sqrt(bcg.v[i]!) }));

test("two sites as far apart as their errors", () => {
  const spread = spreadOf([
    { value: 1, se: 1 },
    { value: 3, se: 1 },
  ]);
  expect(spread).toMatchObject({ of: 2, mean: 2, q: 2, tau2: 1, se: 1, i2: 0.5 });
  // scatter of the mean: (1/2 + 1/2) / 1, weight 1: half the interval is t(0.975, 1) = 12.706
  expect(spread?.high).toBeCloseTo(2 + 12.7062, 4);
  expect(shrunken({ value: 3, se: 1 }, spread!)).toMatchObject({ value: 2.5, own: 0.5, se: Math.sqrt(0.75) });
});

test("thirteen vaccine trials come out as published", () => {
  const spread = spreadOf(trials)!;
  expect(spread.mean).toBeCloseTo(bcg.mu, 5);
  expect(spread.se).toBeCloseTo(bcg.se, 5);
  expect(spread.tau2).toBeCloseTo(bcg.tau2, 5);
  expect(spread.q).toBeCloseTo(bcg.Q, 2);
  expect(100 * spread.i2).toBeCloseTo(bcg.I2, 3);
  expect(spread.low).toBeCloseTo(bcg.hksj_ci[0]!, 5);
  expect(spread.high).toBeCloseTo(bcg.hksj_ci[1]!, 5);
  trials.forEach((trial, i) => {
    const moved = shrunken(trial, spread);
    expect(moved.value).toBeCloseTo(bcg.shrunken[i]!, 5);
    expect(moved.se).toBeCloseTo(bcg.shrunken_se[i]!, 5);
  });
});

test("eight schools differ by no more than chance, and all get the common mean", () => {
  const given = schools.y.map((value, i) => ({ value, se: schools.standardErrors[i]! }));
  const spread = spreadOf(given)!;
  expect(spread).toMatchObject({ tau2: 0, i2: 0 });
  expect(spread.mean).toBeCloseTo(schools.mu, 6);
  expect(spread.se).toBeCloseTo(schools.se, 6);
  expect(spread.q).toBeCloseTo(schools.Q, 5);
  for (const school of given) expect(shrunken(school, spread)).toMatchObject({ own: 0, value: spread.mean });
});

test("eighteen players are drawn in as Efron and Morris drew them, but for their two degrees of freedom", () => {
  const averages = players.hits.map((hits) => hits / players.times);
  const mean = averages.reduce((a, b) => a + b) / averages.length;
  const se = Math.sqrt((mean * (1 - mean)) / players.times);
  const spread = spreadOf(averages.map((value) => ({ value, se })))!;
  expect(spread.mean).toBeCloseTo(players.mean, 5);
  // theirs divides by k - 3 where ours divides by k - 1
  const ours = 1 - shrunken({ value: averages[0]!, se }, spread).own;
  const theirs = 1 - ours * ((averages.length - 3) / (averages.length - 1));
  expect(theirs).toBeCloseTo(players.c, 4);
  expect(mean + theirs * (averages[0]! - mean)).toBeCloseTo(players.shrunken_first, 4);
  expect(mean + theirs * (averages.at(-1)! - mean)).toBeCloseTo(players.shrunken_last, 4);
});

test("one site has no spread", () => {
  expect(spreadOf([{ value: 1, se: 1 }])).toBeNull();
});

test("grams instead of kilograms and another order change nothing but the unit", () => {
  for (let seed = 1; seed <= 50; seed++) {
    const chance = seeded(seed);
    const sites = Array.from({ length: 3 + (seed % 9) }, () => ({
      value: 5 + chance.normal(),
      se: 0.1 + chance.uniform(),
    }));
    const spread = spreadOf(sites)!;
    const inGrams = spreadOf(sites.map(({ value, se }) => ({ value: 1000 * value, se: 1000 * se })))!;
    expect(inGrams.mean / 1000, `seed ${seed}`).toBeCloseTo(spread.mean, 9);
    expect(inGrams.tau2 / 1e6, `seed ${seed}`).toBeCloseTo(spread.tau2, 9);
    expect(inGrams.i2, `seed ${seed}`).toBeCloseTo(spread.i2, 9);
    expect(spreadOf([...sites].reverse())!.mean, `seed ${seed}`).toBeCloseTo(spread.mean, 12);
    const moved = sites.map((site) => shrunken(site, spread).value);
    moved.forEach((value, i) => {
      expect((value - spread.mean) * (sites[i]!.value - spread.mean), `seed ${seed}`).toBeGreaterThanOrEqual(0);
    });
  }
});
