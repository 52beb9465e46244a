import { expect, test } from "vitest";
import type { SignalTold } from "#server/api/signals";
import type { SiteOverTime } from "#server/jobs/siteOverTime";
import { optionOf } from "../../app/sites/[code]/closerDrawing";
import { closerPanels } from "../../app/sites/[code]/closerOf";
import { massOf } from "../../app/sites/[code]/massOf";
import { type Move, movedWindow } from "../../app/sites/[code]/movedWindow";
import { eventsOf, panelsOf } from "../../app/sites/[code]/panelsOf";
import { pointInWords } from "../../app/sites/[code]/pointInWords";
import { lastOfSteps } from "../../app/sites/[code]/signalsAsked";
import { testLines } from "../../app/sites/[code]/testLines";
import { signalTold } from "../app/signalsTold";
import { seeded } from "../statistics/seeded";
import { figure, none } from "./figures";

const PERIOD = { from: "2031-03-01", to: "2031-05-31" };
const week = (from: string, to: string, value: number | null) => ({
  from,
  to,
  figure: value === null ? none() : figure(value, 0.01),
});

function past(said: Partial<SiteOverTime> = {}): SiteOverTime {
  const dryYield = [
    week("2031-03-03", "2031-03-09", 0.31),
    week("2031-03-10", "2031-03-16", null),
    week("2031-03-17", "2031-03-23", 0.34),
  ];
  return {
    period: PERIOD,
    step: "week",
    methods: [{ method: "sand-pan", dryYield, fuelPerDrivenOff: [], freshPerPanHour: [] }],
    record: [],
    usableMark: 0.8,
    events: [],
    days: [],
    sand: { pans: [], limit: null, withoutPan: 0 },
    tests: [],
    ...said,
  };
}

function step(
  since: string,
  raisedOn: string,
  before: number,
  after: number,
  said: Partial<SignalTold> = {},
): SignalTold {
  return {
    id: `OJ.sand-pan.dry-yield.${raisedOn}.up`,
    answer: null,
    cost: { per30Days: 1, unit: "kg-dried", driedKg: 1 },
    coincides: [],
    site: "OJ",
    method: "sand-pan",
    measure: "dry-yield",
    chart: "drift",
    confirms: null,
    raisedOn,
    direction: after > before ? "up" : "down",
    since,
    sinceFrom: since,
    sinceTo: since,
    dateDetermined: true,
    change: after / before - 1,
    low: 0.02,
    high: 0.1,
    level: 0.95,
    before,
    after,
    per30Days: 1,
    daysSince: 20,
    state: "turned",
    together: false,
    questions: [],
    ...said,
  };
}

test("steps of one series are levels one after the other, the last as long as it is known to hold", () => {
  const signals = [
    step("2031-04-20", "2031-05-10", 0.34, 0.3, { state: "stands" }),
    step("2031-03-20", "2031-04-05", 0.31, 0.34),
    step("2031-03-20", "2031-04-05", 5, 6, { measure: "throughput" }),
  ];
  const [dryYield] = panelsOf(past(), signals, null);
  expect(dryYield?.levels).toEqual([
    { from: "2031-03-01", to: "2031-03-19", value: 0.31 },
    { from: "2031-03-20", to: "2031-04-19", value: 0.34 },
    { from: "2031-04-20", to: "2031-05-31", value: 0.3 },
  ]);
});

test("of two steps said to begin on one day the one told last is drawn", () => {
  const told = [step("2031-03-20", "2031-04-05", 0.31, 0.34), step("2031-03-20", "2031-04-25", 0.31, 0.33)];
  expect(panelsOf(past(), told, null)[0]?.levels?.map(({ value }) => value)).toEqual([0.31, 0.33]);
});

test("with two ways of drying each has its panels, and each panel says whose it is", () => {
  const empty = { dryYield: [], fuelPerDrivenOff: [], freshPerPanHour: [] };
  const methods = [
    { method: "sand-pan" as const, ...empty },
    { method: "microwave" as const, ...empty },
  ];
  const titles = panelsOf(past({ methods }), [], 2.57).map(({ title }) => title);
  expect(titles).toHaveLength(7);
  expect(titles.filter((title) => title.includes("microwave"))).toHaveLength(3);
});

test("a figure that could use less than the mark of what was owed is hollow", () => {
  const thin = { ...figure(0.3), restsOn: { used: 3, here: 5, owed: 6, of: "batches" as const } };
  const methods = [
    {
      method: "sand-pan" as const,
      dryYield: [{ from: "2031-03-03", to: "2031-03-09", figure: thin }, week("2031-03-10", "2031-03-16", 0.3)],
      fuelPerDrivenOff: [],
      freshPerPanHour: [],
    },
  ];
  expect(panelsOf(past({ methods }), [], null)[0]?.points.map(({ hollow }) => hollow)).toEqual([true, false]);
});

test("what happened on one day shares a rule; new sand is a rule only where it is seldom", () => {
  const pan = (name: string, newOn: readonly string[]) => ({ pan: name, newOn, days: [] });
  const seldom = {
    pans: [pan("1", ["2031-03-05"]), pan("2", ["2031-03-05", "2031-04-01"])],
    limit: null,
    withoutPan: 0,
  };
  expect(eventsOf(past({ sand: seldom }))).toEqual([
    { day: "2031-03-05", text: "new sand, pan 1 and 2" },
    { day: "2031-04-01", text: "new sand, pan 2" },
  ]);
  const days = Array.from({ length: 13 }, (_, i) => `2031-03-${String(i + 1).padStart(2, "0")}`);
  expect(eventsOf(past({ sand: { ...seldom, pans: [pan("1", days)] } }))).toEqual([]);
});

test("the drawing to move about in keeps the gap, and says in words what a point rests on", () => {
  const panels = closerPanels(panelsOf(past(), [], 2.57));
  const option = optionOf(
    { short: "x", long: "y", ...PERIOD, panels, events: [{ day: "2031-03-05", text: "visit" }] },
    { ink: "#000", quiet: "#111", line: "#222", deep: "#333", sheet: "#444", edge: "#555" },
  );
  expect(JSON.stringify(option.series)).toContain(`[${Date.UTC(2031, 2, 13) + 43_200_000},null]`);
  expect(option.tooltip).toMatchObject({ renderMode: "richText" });
  expect(option.dataZoom).toMatchObject([{ filterMode: "none" }]);
  expect(option.series).toContainEqual(expect.objectContaining({ type: "custom", clip: true }));
  expect(option.aria).toMatchObject({ enabled: true });
  expect(panels[0]?.points.map((point) => pointInWords(point, "kg/kg"))).toEqual([
    "3 to 9 Mar 2031: 31.0 % (30.0 to 32.0), rests on 25 of 26 batches",
    "10 to 16 Mar 2031: nothing is known",
    "17 to 23 Mar 2031: 34.0 % (33.0 to 35.0), rests on 25 of 26 batches",
  ]);
});

test("whatever is pressed, what is shown stays within the whole, and wide enough to be seen", () => {
  expect(movedWindow({ from: 0, to: 100 }, "closer")).toEqual({ from: 25, to: 75 });
  expect(movedWindow({ from: 25, to: 75 }, "later")).toEqual({ from: 50, to: 100 });
  expect(movedWindow({ from: 50, to: 100 }, "wider")).toEqual({ from: 0, to: 100 });
  const moves: readonly Move[] = ["closer", "wider", "earlier", "later", "whole"];
  for (let seed = 1; seed <= 50; seed++) {
    const chance = seeded(seed);
    let shown = { from: 0, to: 100 };
    for (let press = 0; press < 40; press++) {
      shown = movedWindow(shown, moves[Math.floor(moves.length * chance.uniform())]!);
      expect(shown.from >= -1e-9 && shown.to <= 100 + 1e-9 && shown.to - shown.from >= 5 - 1e-9, `seed ${seed}`).toBe(
        true,
      );
    }
  }
});

test("tests are counted as logged; what the log does not speak of is not called untested, and a test nobody logs has no line", () => {
  const month = "2031-03";
  const lines = testLines([
    { month, test: "crush", result: "pass", batches: 20 },
    { month, test: "crush", result: "not-tested", batches: 4 },
    { month, test: "crush", result: null, batches: 2 },
    { month, test: "crisp", result: null, batches: 26 },
  ]);
  expect(lines).toEqual([{ month, test: "crush", pass: 20, fail: 0, notTested: 4, unsaid: 2 }]);
});

test("dry matter is called unexplained only where it was measured in every month and has to be missing", () => {
  const month = (basis: "measured" | "assumed", lostKg: number | null) => ({
    massBalance: {
      masses: { freshKg: 100, driedKg: 28, drivenOffKg: 72 },
      dryMatter: { basis, share: 0.3, sd: 0 },
      impliedMoisture: none("dry-matter-not-declared", "share"),
      moistureBand: null,
      solidsLossAtLeast: lostKg === null ? null : figure(lostKg, null, "kg"),
    },
  });
  expect(massOf([month("measured", 2), month("measured", null)])?.parts).toEqual({
    driedKg: 56,
    waterKg: 142,
    unexplainedKg: 2,
  });
  expect(massOf([month("measured", 2), month("assumed", null)])?.parts.unexplainedKg).toBeNull();
  expect(massOf([month("measured", null)])?.parts.unexplainedKg).toBeNull();
  expect(massOf([])).toBeNull();
});

test("a step that was told again and again is shown once, as the last signal knows it", () => {
  const first = signalTold({ raisedOn: "2031-07-02", change: 0.11 });
  const again = signalTold({ raisedOn: "2031-07-23", confirms: "2031-07-02", change: 0.15 });
  const back = signalTold({ raisedOn: "2031-08-20", direction: "down" });
  expect(lastOfSteps([back, again, first])).toEqual([again, back]);
});
