import { expect, test } from "vitest";
import type { FigureRow } from "#server/evidence/figureRows";
import { columnLetter, liveFormulas } from "#server/evidence/liveFormulas";
import { laidOut } from "#server/evidence/table";
import { TABLES } from "#server/evidence/tables";
import type { BatchItem } from "#server/evidence/tables/batches";
import type { Batch, Quantity } from "#server/terms/batch";

const kg = (exact: string | null): Quantity | null => (exact === null ? null : { exact, value: Number(exact) });

function item(fresh: string | null, dried: string | null, about: Partial<Batch> = {}): BatchItem {
  const batch: Batch = {
    id: `${fresh} ${dried}`,
    site: 1,
    day: "2031-03-04",
    method: "sand-pan",
    grain: "load",
    loads: 1,
    number: null,
    pan: null,
    harvest: null,
    startMinute: null,
    endMinute: null,
    fresh: kg(fresh),
    dried: kg(dried),
    driedToCome: dried === null,
    minutes: null,
    rejects: null,
    sandKg: null,
    sandCycle: null,
    newSand: null,
    crushTest: null,
    crisp: null,
    colour: null,
    moistureReading: null,
    waterActivity: null,
    inTime: true,
    ...about,
  };
  return { site: "OJ", batch, ledgerIndex: 2, standings: [] };
}

function figure(measure: string, value: number | null, method: FigureRow["method"] = "sand-pan"): FigureRow {
  return {
    site: "OJ",
    method,
    measure,
    from: "2031-03-01",
    to: "2031-03-31",
    value,
    unit: "kg",
    why: value === null ? "nothing-logged" : null,
    used: 2,
    here: 3,
    expected: null,
    of: "batches",
    low: null,
    high: null,
    level: null,
    missingLow: null,
    missingHigh: null,
    knownSize: 9,
    knownOn: null,
    edition: "x",
  };
}

const BATCHES = laidOut(TABLES.batches, [
  item("10", "3"),
  item("30", "11"),
  item("5", null),
  item("99", "50", { method: "microwave" }),
  item("77", "20", { day: "2031-04-01" }),
]);

test("yield, weights and what was driven off are added up from the batches of the same site, month and method", () => {
  const figures = laidOut(TABLES.figures, [
    figure("fresh", 45),
    figure("dried", 14),
    figure("dry-yield", 0.35),
    figure("driven-off", 26),
    figure("heat", 12),
    figure("dry-yield", null),
    figure("dry-yield", 0.5, "other"),
  ]);
  const live = liveFormulas(figures, BATCHES);
  expect(live.map((one) => one?.result ?? null)).toEqual([45, 14, 14 / 40, 26, null, null, null]);
});

test("a formula sums over every batch with the column included, by functions that every spreadsheet has", () => {
  const [live] = liveFormulas(laidOut(TABLES.figures, [figure("dried", 14)]), BATCHES);
  const at = (name: string) => columnLetter(TABLES.batches.columns.findIndex((column) => column.name === name));
  const range = (name: string) => `batches!$${at(name)}$2:$${at(name)}$6`;
  expect(live?.formula).toBe(
    `SUMIFS(${range("dried_kg")},${range("belongs_to")},$A2&" "&LEFT($D2,7)&" "&$B2,${range("included")},1)`,
  );
  expect(at("belongs_to").length + at("included").length).toBeGreaterThan(1);
});

test("results follow the batches and not the figures, so a wrong figure shows", () => {
  const [live] = liveFormulas(laidOut(TABLES.figures, [figure("dry-yield", 0.999)]), BATCHES);
  expect(live?.result).toBe(14 / 40);
});

test("columns have the letters that spreadsheets give them", () => {
  expect([0, 25, 26, 51, 52, 701, 702].map(columnLetter)).toEqual(["A", "Z", "AA", "AZ", "BA", "ZZ", "AAA"]);
});
