import { expect, test } from "vitest";
import { placesOf } from "#server/compare/places";
import { seeded } from "../statistics/seeded";

test("ten sites that cannot be told apart may each hold any place", () => {
  const places = placesOf(Array.from({ length: 10 }, () => ({ value: 3, se: 1 })));
  // each place has one chance in ten: five in a hundred are left out at either end, and no place is
  for (const place of places) expect(place).toMatchObject({ from: 1, to: 10, of: 10 });
  expect(places[0]!.inLowestQuarter).toBeCloseTo(0.2, 6);
});

test("sites far apart hold their places", () => {
  const places = placesOf([5, 4, 3, 2, 1].map((value) => ({ value: 100 * value, se: 1 })));
  expect(places.map(({ from, to }) => [from, to])).toEqual([
    [1, 1],
    [2, 2],
    [3, 3],
    [4, 4],
    [5, 5],
  ]);
  expect(places.at(-1)!.inLowestQuarter).toBeCloseTo(1, 6);
});

test("places agree with drawing them many times", () => {
  const chance = seeded(3);
  const sites = Array.from({ length: 7 }, (_, i) => ({ value: 0.4 * i, se: 0.3 + chance.uniform() }));
  const counts = sites.map(() => new Float64Array(sites.length));
  const rounds = 20_000;
  for (let round = 0; round < rounds; round++) {
    const drawn = sites.map(({ value, se }) => value + se * chance.normal());
    drawn.forEach((one, i) => {
      const place = drawn.filter((other) => other > one).length;
      counts[i]![place] = counts[i]![place]! + 1 / rounds;
    });
  }
  placesOf(sites).forEach(({ inLowestQuarter, from, to }, i) => {
    expect(inLowestQuarter).toBeCloseTo(counts[i]!.at(-1)!, 1);
    const inside = counts[i]!.slice(from - 1, to).reduce((a, b) => a + b, 0);
    expect(inside).toBeGreaterThan(0.88);
  });
});

test("too few sites have no places, and neither have too many", () => {
  expect(placesOf([1, 2, 3, 4].map((value) => ({ value, se: 1 })))).toEqual([]);
  expect(placesOf(Array.from({ length: 51 }, (_, value) => ({ value, se: 1 })))).toEqual([]);
});
