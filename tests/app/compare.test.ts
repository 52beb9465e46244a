import { expect, test } from "vitest";
import { apartAddress, apartAsked } from "#app/compare/apart/asked";
import { arranged, isNotOpen, scalesOf } from "#app/compare/arranged";
import { addressOf, comparisonAsked } from "#app/compare/asked";
import { inParts } from "#app/compare/inParts";
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

test("another part of the list stands in the address, and another list begins at its first part", () => {
  const asked = comparisonAsked({ month: "2031-04", sort: "record", part: "3" }, "2031-05");
  expect(addressOf(asked, { part: 4 })).toBe("/compare?month=2031-04&sort=record&part=4");
  expect(addressOf(asked, { month: "2031-03" })).toBe("/compare?month=2031-03&sort=record");
  for (const part of ["0", "-1", "1e9", "99999", "two", ""]) expect(comparisonAsked({ part }, "2031-05").part).toBe(1);
});

test("a long list is cut into even parts that hold every row once, and a short one is not", () => {
  for (const length of [0, 1, 10, 40, 59, 60, 61, 81, 500, 4321]) {
    const rows = Array.from({ length }, (_, at) => at);
    const parts = inParts(rows);
    expect(parts.flat()).toEqual(rows);
    expect(Math.max(...parts.map((part) => part.length))).toBeLessThanOrEqual(60);
    if (length < 60) expect(parts).toHaveLength(1);
    else expect(Math.min(...parts.map((part) => part.length))).toBeGreaterThan(20);
  }
});

test("what sites are set apart by stands in the address too", () => {
  const asked = apartAsked({ month: "2031-04", measure: "fresh-per-pan-hour", first: "OJ", second: "SL" }, "2031-05");
  const address = "/compare/apart?month=2031-04&measure=fresh-per-pan-hour&first=OJ&second=SL";
  expect(apartAddress(asked)).toBe(address);
  expect(apartAsked(Object.fromEntries(new URL(address, "http://localhost").searchParams), "x")).toEqual(asked);
  expect(apartAsked({ measure: "minutes-per-kg", first: "OJ", second: "OJ" }, "2031-05")).toEqual({
    month: "2031-05",
    known: undefined,
    measure: "dry-yield",
    two: null,
  });
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
