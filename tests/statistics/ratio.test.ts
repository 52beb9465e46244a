import { expect, test } from "vitest";
import { ratioFromSums, ratioOfSums } from "#server/statistics/ratio";
import { sumOf } from "#server/statistics/sum";
import cities from "../files/reference/cities.json";

const pairs = cities.u.map((u, i) => ({ num: cities.x[i]!, den: u }));

// Source: Cochran, Sampling Techniques, ch. 6; data as in R's boot::bigcity, results as survey::svyratio gives them.
test("ratio of sums and its standard error equal the published cities", () => {
  const found = ratioOfSums(pairs);
  expect(sumOf(pairs, (pair) => pair.num)).toBe(6262);
  expect(sumOf(pairs, (pair) => pair.den)).toBe(5054);
  expect(found?.ratio).toBeCloseTo(cities.ratio, 7);
  expect(found?.se).toBeCloseTo(cities.se, 8);
  expect(found?.clusters).toBe(49);
});

test("ratio of sums is not the mean of the ratios", () => {
  const mean = sumOf(pairs, (pair) => pair.num / pair.den) / pairs.length;
  expect(mean).toBeCloseTo(cities.meanOfRatios, 7);
  expect(ratioOfSums(pairs)?.ratio).not.toBeCloseTo(mean, 1);
});

test("the first ten cities equal theirs", () => {
  const found = ratioOfSums(pairs.slice(0, 10));
  expect(found?.ratio).toBeCloseTo(cities.first10.ratio, 7);
  expect(found?.se).toBeCloseTo(cities.first10.se, 7);
});

test("sums alone give the same ratio and error as the pairs", () => {
  const sums = {
    clusters: pairs.length,
    num: sumOf(pairs, (pair) => pair.num),
    den: sumOf(pairs, (pair) => pair.den),
    num2: sumOf(pairs, (pair) => pair.num ** 2),
    den2: sumOf(pairs, (pair) => pair.den ** 2),
    numDen: sumOf(pairs, (pair) => pair.num * pair.den),
  };
  expect(ratioFromSums(sums)?.se).toBeCloseTo(cities.se, 8);
});

test("there is no ratio over nothing and no error from one cluster", () => {
  expect(ratioOfSums([])).toBeNull();
  expect(ratioOfSums([{ num: 1, den: 0 }])).toBeNull();
  expect(ratioOfSums([{ num: 1, den: 2 }])).toEqual({ ratio: 0.5, se: null, clusters: 1 });
});
