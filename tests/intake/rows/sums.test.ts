import { expect, test } from "vitest";
import { Sums } from "#server/intake/rows/sums";

test("sums are kept by column; a column to which nothing was added is no zero in the list", () => {
  const sums = new Sums();
  sums.add(1, 10);
  sums.add(3, 0);
  sums.add(1, 5);
  expect(sums.list()).toEqual([undefined, 15, undefined, 0]);
  expect([sums.at(0), sums.at(1), sums.at(400)]).toEqual([0, 15, 0]);
});

test("sums go on from those of an earlier part, in whichever column, until they are cleared", () => {
  const sums = new Sums([undefined, 15]);
  sums.add(1, 5);
  sums.add(300, 1);
  expect([sums.at(1), sums.at(300), sums.list().length]).toEqual([20, 1, 301]);
  sums.clear();
  expect(sums.list()).toEqual([]);
});
