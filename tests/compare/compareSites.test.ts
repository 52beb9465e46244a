import { expect, test } from "vitest";
import { compareSites } from "#server/compare/compareSites";
import { USABLE_MARK } from "#server/compare/restsOnLittle";
import { entry, measured, nothingOf, someSites } from "./entries";

const yields = (values: readonly number[], more: Parameters<typeof entry>[2] = {}) =>
  values.map((value, i) => entry(i + 1, { "dry-yield": measured(value, 0.004) }, more));

test("five alike sites have a middle half, a spread and limits; the nearest neighbours draw each other in", () => {
  const { rows, peers } = compareSites(yields([0.3, 0.32, 0.33, 0.34, 0.36]), USABLE_MARK);
  const group = peers.find(({ measure }) => measure === "dry-yield");
  expect(group).toMatchObject({ sites: [1, 2, 3, 4, 5], alike: 5, middle: { low: 0.32, high: 0.34, of: 5 } });
  // Q = Σ(y − 0.33)² / 0.004² = 0.002 / 0.000016 = 125; tau² = (125 − 4) · 0.000016 / 4 = 0.000484
  expect(group?.spread?.q).toBeCloseTo(125, 6);
  expect(group?.spread?.tau2).toBeCloseTo(0.000484, 9);
  const first = rows[0]?.cells["dry-yield"];
  expect(first?.shrunken?.own).toBeCloseTo(0.000484 / 0.0005, 6);
  expect(first?.shrunken?.value).toBeGreaterThan(0.3);
});

test("sites with another dryer or weighing moment are not compared", () => {
  const sites = [
    ...yields([0.3, 0.32, 0.33, 0.34]),
    entry(11, { "dry-yield": measured(0.5, 0.004) }, { method: "microwave" }),
    entry(13, { "dry-yield": measured(0.5, 0.004) }, { driedWeighed: { when: "hot", sieved: "after-sieving" } }),
    entry(14, { "dry-yield": measured(0.5, 0.004) }, { freshWeighed: null }),
  ];
  const { rows, peers } = compareSites(sites, USABLE_MARK);
  const of = (at: number) => peers[rows[at]?.cells["dry-yield"].peers ?? -1];
  expect(of(0)).toMatchObject({ sites: [1, 2, 3, 4], anyFuel: false });
  expect(of(0)?.middle?.high).toBeCloseTo(0.3325, 12);
  for (const at of [4, 5, 6]) expect(of(at)).toMatchObject({ middle: null, alike: 1 });
});

test("a fuel that few share is left aside for yields, and never for fuel", () => {
  const both = (site: number, value: number, fuel: "lpg" | "firewood") =>
    entry(
      site,
      { "dry-yield": measured(value, 0.004), "fuel-per-driven-off": measured(6, 0.1, { unit: "MJ/kg" }) },
      { fuel },
    );
  const sites = [0.3, 0.31, 0.32, 0.33].map((value, i) => both(i + 1, value, "lpg"));
  const { rows, peers } = compareSites([...sites, both(5, 0.4, "firewood")], USABLE_MARK);
  const of = (at: number, measure: "dry-yield" | "fuel-per-driven-off") => peers[rows[at]?.cells[measure].peers ?? -1];
  expect(of(0, "dry-yield")).toMatchObject({ sites: [1, 2, 3, 4], fuel: "lpg", anyFuel: false });
  expect(of(4, "dry-yield")).toMatchObject({ sites: [1, 2, 3, 4, 5], anyFuel: true, middle: { of: 5 } });
  expect(of(4, "fuel-per-driven-off")).toMatchObject({ sites: [5], fuel: "firewood", middle: null });
});

test("when dried weights are taken makes no difference to throughput", () => {
  const pace = (site: number, when: "hot" | "cooled") =>
    entry(
      site,
      { "fresh-per-pan-hour": measured(6, 0.1, { unit: "kg/pan-hour" }) },
      { driedWeighed: { when, sieved: "after-sieving" } },
    );
  const { peers } = compareSites([pace(1, "hot"), pace(2, "cooled")], USABLE_MARK);
  expect(peers.find(({ measure }) => measure === "fresh-per-pan-hour")?.sites).toEqual([1, 2]);
});

test.each([
  { said: "four days", given: measured(0.3, 0.001, { clusters: 4 }), little: { why: "few-days", days: 4 } },
  { said: "an interval of a quarter", given: measured(0.4, 0.1 / 1.96), little: { why: "wide-interval" } },
  {
    said: "six of ten usable",
    given: measured(0.3, 0.001, { usable: 0.6 }),
    little: { why: "little-usable", share: 0.6, mark: 0.8 },
  },
])("a figure that rests on little ($said) is hollow and moves nobody", ({ given, little }) => {
  const others = yields([0.3, 0.32, 0.33, 0.34, 0.36]);
  const { rows, peers } = compareSites([...others, entry(9, { "dry-yield": given })], USABLE_MARK);
  expect(rows.at(-1)?.cells["dry-yield"]).toMatchObject({ little, shrunken: null, limits: null });
  const without = compareSites(others, USABLE_MARK);
  const of = (all: typeof peers) => all.find(({ measure }) => measure === "dry-yield");
  expect({ ...of(peers), alike: 0 }).toEqual({ ...of(without.peers), alike: 0 });
});

test("a site that never reports changes nobody's figures", () => {
  for (let seed = 1; seed <= 30; seed++) {
    const sites = someSites(seed, 4 + (seed % 8));
    const silent = entry(99, { "record-usable": nothingOf(25) });
    const before = compareSites(sites, USABLE_MARK);
    const after = compareSites([...sites, silent], USABLE_MARK);
    expect(
      after.rows.filter(({ site }) => site !== 99),
      `seed ${seed}`,
    ).toEqual(before.rows);
    expect(
      after.peers.map((peers) => ({ ...peers, alike: peers.alike - 1 })),
      `seed ${seed}`,
    ).toEqual(before.peers);
  }
});

test("the order of sites makes no difference, bit for bit", () => {
  for (let seed = 1; seed <= 30; seed++) {
    const sites = someSites(seed, 4 + (seed % 8));
    expect(compareSites([...sites].reverse(), USABLE_MARK), `seed ${seed}`).toEqual(compareSites(sites, USABLE_MARK));
  }
});

test("grams in the place of kilograms change no yield, no band and no mark", () => {
  for (let seed = 1; seed <= 30; seed++) {
    const inKg = compareSites(someSites(seed, 9), USABLE_MARK);
    const inGrams = compareSites(someSites(seed, 9, 1024), USABLE_MARK); // a power of two, so that no bit is lost
    for (const [i, { cells }] of inKg.rows.entries()) {
      expect(inGrams.rows[i]?.cells["dry-yield"].shrunken, `seed ${seed}`).toEqual(cells["dry-yield"].shrunken);
      expect(inGrams.rows[i]?.cells["dry-yield"].limits?.outside, `seed ${seed}`).toEqual(
        cells["dry-yield"].limits?.outside,
      );
      expect(inGrams.rows[i]?.cells["fuel-per-driven-off"].little, `seed ${seed}`).toEqual(
        cells["fuel-per-driven-off"].little,
      );
    }
    const [fuel, fuelInGrams] = [inKg, inGrams].map(({ peers }) => peers.find((one) => one.measure.startsWith("fuel")));
    expect((fuelInGrams?.middle?.low ?? 0) * 1024, `seed ${seed}`).toBe(fuel?.middle?.low);
  }
});
