import { expect, test } from "vitest";
import { DEFAULTS } from "#server/drift/parameters";
import { pooledParameters } from "#server/drift/pool";
import { calmProgramme, type Habit } from "../bench/programme";

const habit: Habit = {
  name: "",
  sites: 30,
  measures: 1,
  days: 250,
  omega: 0.6,
  rho: 0.3,
  tails: null,
  between: 8,
  renewed: null,
};
const seriesOf = (of: Habit, seed: number) => calmProgramme(of, seed).map(({ series }) => series);

test("what the streams have in common is found again", () => {
  const { omega, rho, d0, s02, from } = pooledParameters(seriesOf(habit, 3));
  expect(from).toBe("streams");
  expect(Math.abs(omega - 0.6)).toBeLessThan(0.2);
  expect(Math.abs(rho - 0.3)).toBeLessThan(0.15);
  // the lag-one correlation of a day of usual mass is what the limits live on: 0.18
  expect(Math.abs(omega * rho - 0.18)).toBeLessThan(0.06);
  expect(d0).toBeGreaterThan(4);
  expect(d0).toBeLessThan(20);
  expect(s02 / 0.0025).toBeGreaterThan(0.7);
  expect(s02 / 0.0025).toBeLessThan(1.4);
});

test("sites of one spread are moderated as far as is allowed", () => {
  expect(pooledParameters(seriesOf({ ...habit, between: 4000 }, 4)).d0).toBeGreaterThan(20);
});

test("too few streams or points give the defaults, and say so", () => {
  const streams = seriesOf(habit, 5);
  expect(pooledParameters(streams.slice(0, 5))).toMatchObject({ ...DEFAULTS, from: "defaults", streams: 5 });
  expect(pooledParameters([])).toMatchObject({ from: "defaults", streams: 0, points: 0 });
  const short = streams.slice(0, 6).map(({ day, value, mass }) => ({
    day: day.subarray(0, 10),
    value: value.subarray(0, 10),
    mass: mass.subarray(0, 10),
  }));
  expect(pooledParameters(short)).toMatchObject({ from: "defaults", points: 60 });
});

test("the order of the sites, a silent site and the unit leave no trace", () => {
  const streams = seriesOf({ ...habit, sites: 8 }, 6);
  const expected = pooledParameters(streams);
  const silent = { day: new Int32Array(0), value: new Float64Array(0), mass: new Float64Array(0) };
  expect(pooledParameters([...streams].reverse())).toEqual(expected);
  expect(pooledParameters([...streams.slice(3), silent, ...streams.slice(0, 3)])).toEqual(expected);
  const inGrams = streams.map((one) => ({
    ...one,
    value: one.value.map((value) => value + Math.log(1000)),
    mass: one.mass.map((mass) => mass * 1024),
  }));
  const grams = pooledParameters(inGrams);
  expect(grams.omega).toBeCloseTo(expected.omega, 9);
  expect(grams.rho).toBeCloseTo(expected.rho, 9);
  expect(grams.s02 / expected.s02).toBeCloseTo(1, 6);
});

test("one tenfold error does not move what streams have in common", () => {
  const streams = seriesOf({ ...habit, sites: 8 }, 7);
  const expected = pooledParameters(streams);
  const wrong = pooledParameters(streams.map((one, i) => (i === 2 ? { ...one, value: one.value.with(40, 1.2) } : one)));
  expect(wrong.omega).toBeCloseTo(expected.omega, 1);
  expect(wrong.s02 / expected.s02).toBeCloseTo(1, 1);
});
