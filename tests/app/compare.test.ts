import { expect, test } from "vitest";
import { arranged, isNotOpen, scalesOf } from "#app/compare/arranged";
import { addressOf, comparisonAsked } from "#app/compare/asked";
import type { SignalTold } from "#server/api/signals";
import { compareSites } from "#server/compare/compareSites";
import { USABLE_MARK } from "#server/compare/restsOnLittle";
import type { MonthCompared, SiteRow } from "#server/jobs/comparison";
import { unknown } from "#server/terms/figure";
import { entry, measured, nothing } from "../compare/entries";

const { peers, rows } = compareSites(
  [
    entry(1, { "dry-yield": measured(0.31, 0.004), "record-usable": measured(0.7, 0, { unit: "share" }) }),
    entry(2, { "dry-yield": measured(0.33, 0.004), "fuel-per-driven-off": measured(6, 0.1, { unit: "MJ/kg" }) }),
    entry(3, { "dry-yield": measured(0.36, 0.004) }, { method: "microwave", fuel: "electricity" }),
  ],
  USABLE_MARK,
);
const NAMES = ["Old Jetty", "Cattle Bridge", "Market Steps"];
const shown = rows.map(
  (row, i): SiteRow => ({
    ...row,
    site: `S${row.site}`,
    name: NAMES[i] ?? "",
    beside: {
      fuelPerDried: nothing().figure,
      fuelPerFiringDay: nothing().figure,
      loadsPerFiringDay: nothing().figure,
      recordHere: nothing().figure,
    },
    targets: {},
  }),
);
const signals = [
  { site: "S3", together: false },
  { site: "S1", together: true },
] as SignalTold[];
const plain = comparisonAsked({}, "2031-05");
const names = (asked: Partial<typeof plain>) =>
  arranged(shown, signals, { ...plain, ...asked }).map(({ name }) => name);

test("sites stand by name unless asked otherwise, and never by a figure", () => {
  expect(names({})).toEqual(["Cattle Bridge", "Market Steps", "Old Jetty"]);
  expect(names({ sort: "record" })).toEqual(["Old Jetty", "Cattle Bridge", "Market Steps"]);
  expect(names({ sort: "changed" })).toEqual(["Market Steps", "Cattle Bridge", "Old Jetty"]);
  expect(names({ sort: "dryer" })).toEqual(["Market Steps", "Cattle Bridge", "Old Jetty"]);
  expect(names({ dryer: "microwave" })).toEqual(["Market Steps"]);
});

test("everything asked for stands in the address, and nonsense asks for nothing", () => {
  const asked = comparisonAsked(
    { month: "2031-04", dryer: "sand-pan", sort: "record", known: "2031-05-13" },
    "2031-05",
  );
  expect(addressOf(asked)).toBe("/compare?month=2031-04&dryer=sand-pan&sort=record&known=2031-05-13");
  expect(comparisonAsked(Object.fromEntries(new URLSearchParams(addressOf(asked).split("?")[1])), "2031-05")).toEqual(
    asked,
  );
  expect(comparisonAsked({ month: "x", dryer: "oven", sort: "yield", known: "y" }, "2031-05")).toEqual(plain);
  expect(addressOf(asked, { known: undefined, sort: "name" })).toBe("/compare?month=2031-04&dryer=sand-pan");
});

test("a site that was not open takes no row", () => {
  const [first] = shown;
  const why = {
    why: "not-open",
    unit: "share",
    restsOn: nothing().figure.restsOn,
    asKnownOn: nothing().figure.asKnownOn,
  } as const;
  const closed: SiteRow = {
    ...first!,
    name: "Lantern Hill",
    cells: {
      ...first!.cells,
      "dry-yield": { ...first!.cells["dry-yield"], figure: nothing().figure },
      "record-usable": { ...first!.cells["record-usable"], figure: unknown(why) },
    },
  };
  expect(isNotOpen(closed)).toBe(true);
  expect(arranged([...shown, closed], signals, plain).map(({ name }) => name)).not.toContain("Lantern Hill");
});

test("the fuel's scale holds its floor, so that a dot below it shows", () => {
  const compared = { peers, usableMark: 0.8, floorMjPerKg: 2.571 } as unknown as MonthCompared;
  const scales = scalesOf(shown, compared);
  expect(scales["fuel-per-driven-off"]?.low).toBeLessThan(2.571);
  expect(scales["dry-yield"]?.low).toBeGreaterThan(0.28);
});
