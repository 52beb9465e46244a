import { expect, test } from "vitest";
import type { SiteWatched } from "#server/jobs/watchSites";
import { workingDays } from "../drift/streams";
import { ofStep, order, plan, programme, recorded, STEP, site, stepped } from "./watched";

const first = plan(order(programme()));
const [raised] = ofStep(first.signals);

test("a step is raised once, with what it costs, and said again only as said again", () => {
  expect(raised).toMatchObject({
    measure: "dry-yield",
    direction: "up",
    state: "stands",
    confirms: null,
    together: false,
  });
  expect(raised!.sinceFrom <= STEP.from && STEP.from <= raised!.sinceTo).toBe(true);
  expect(raised!.costDriedKg).toBeCloseTo(raised!.per30Days, 9);
  for (const again of ofStep(first.signals).slice(1)) expect(again.confirms).toBe(raised!.raisedOn);
});

test("months keep what they were held to, and say when it is made of defaults", () => {
  expect(first.months.map(({ month }) => month)).toEqual([
    "2031-01",
    "2031-02",
    "2031-03",
    "2031-04",
    "2031-05",
    "2031-06",
  ]);
  expect(first.months[0]!.groups[0]!.pooled.from).toBe("defaults");
  expect(first.months.at(-1)!.groups[0]!.pooled).toMatchObject({ from: "streams", streams: 8 });
  expect(first.months.at(-1)!.streams).toBe(8);
});

test("watched again there is nothing to say, whether everything is looked at or the last months alone", () => {
  const told = recorded(first);
  const nothing = { signals: [], months: [], streams: [] };
  expect(plan(order(programme(), { ...told, knownSize: 11 }))).toEqual(nothing);
  const last = { from: "2031-04", sayFrom: "2031-06" };
  const within = <T extends { month: string }>(rows: readonly T[]) => rows.filter(({ month }) => month >= last.from);
  expect(
    plan(order(programme(), { ...told, ...last, months: within(told.months), streams: within(told.streams) })),
  ).toEqual(nothing);
});

test("month by month the same is told as all at once", () => {
  const until = (day: string) => programme().map((one) => site(one.site, pointsUntil(one.site, day)));
  let told = recorded();
  for (const month of ["2031-01", "2031-02", "2031-03", "2031-04", "2031-05", "2031-06"]) {
    const here = { to: month, today: `${month}-31`, sayFrom: month };
    const plans = plan(order(until(`${month}-31`), { ...told, ...here }));
    told = recorded({ signals: told.signals, months: told.months, streams: told.streams }, plans);
  }
  expect(told.signals.map(key)).toEqual(recorded(first).signals.map(key));
});

function pointsUntil(number: number, day: string) {
  return (number === STEP.site ? stepped : workingDays(number, 150)).filter((point) => point.day <= day);
}

const key = ({ site: number, raisedOn, direction, month, state }: (typeof first.signals)[number]) =>
  `${number} ${raisedOn} ${direction} ${month} ${state}`;

const calmDays = workingDays(21, 150);

test("a corrected month takes the support away and removes nothing", () => {
  const corrected = plan(order(programme(site(1, calmDays)), { ...recorded(first), sayFrom: "2031-05" }));
  const now = recorded(first, corrected).signals.filter((row) => row.site === STEP.site && row.raisedOn >= STEP.from);
  expect(now.length).toBeGreaterThan(0);
  expect(new Set(now.map(({ state }) => state))).toEqual(new Set(["unsupported"]));
  const back = plan(order(programme(), { ...recorded(first, corrected), sayFrom: "2031-05" }));
  expect(ofStep(recorded(first, corrected, back).signals)[0]).toEqual(raised);
});

test("a day that comes late does not raise the same change under another day", () => {
  const missing = stepped.filter((_, i) => i !== STEP.at + 1 && i !== STEP.at + 2);
  const early = plan(order(programme(site(1, missing))));
  const late = plan(order(programme(), { ...recorded(early), sayFrom: "2031-05" }));
  const names = (rows: typeof early.signals) => [
    ...new Set(
      ofStep(rows)
        .filter(({ confirms }) => confirms === null)
        .map(({ raisedOn }) => raisedOn),
    ),
  ];
  expect(names(early.signals)).toHaveLength(1);
  expect(names(recorded(early, late).signals)).toEqual(names(early.signals));
});

test("sites that join bring new limits; late days of those that were there do not", () => {
  const one = plan(order([site(1, stepped)]));
  const all = plan(order(programme(), recorded(one)));
  const edge = (rows: typeof one.months) => rows.find(({ month }) => month === "2031-05")!.limits.edge;
  expect(edge(all.months)).toBeGreaterThan(edge(one.months));
  expect(all.months.map(({ month, limits, groups }) => ({ month, limits, groups }))).toEqual(
    first.months.map(({ month, limits, groups }) => ({ month, limits, groups })),
  );
  const later = plan(
    order(programme(site(1, workingDays(1, 150, { at: 100, times: 1.3 }))), { ...recorded(first), sayFrom: "2031-04" }),
  );
  const held = recorded(first, later).months;
  expect(held.map(({ limits, groups }) => ({ limits, groups }))).toEqual(
    first.months.map(({ limits, groups }) => ({ limits, groups })),
  );
});

test("a site that never reports changes nothing", () => {
  const silent = { site: 9, streams: [], record: [] };
  expect(plan(order([...programme(), silent]))).toEqual(first);
  const empty = site(9, []);
  expect(plan(order([...programme(), empty])).signals).toEqual(first.signals);
});

test("the order of the sites changes nothing", () => {
  const turned = plan(order([...programme()].reverse()));
  expect(recorded(turned).signals).toEqual(recorded(first).signals);
});

test("a year in g tells what a year in kg tells, weights apart", () => {
  const inGrams = programme().map((one) =>
    site(
      one.site,
      pointsUntil(one.site, "2031-12-31").map((point) => ({
        ...point,
        numerator: point.numerator * 1000,
        denominator: point.denominator * 1000,
      })),
    ),
  );
  const told = plan(order(inGrams)).signals;
  expect(told.map(key)).toEqual(first.signals.map(key));
  for (const [i, row] of told.entries()) {
    expect(row.change).toBeCloseTo(first.signals[i]!.change, 9);
    expect(row.per30Days / 1000).toBeCloseTo(first.signals[i]!.per30Days, 6);
  }
});

test("a tenfold typing error is a question of its day and delays the step by a few days at most", () => {
  const typed = stepped.map((point, i) => (i === STEP.at - 8 ? { ...point, numerator: point.numerator * 10 } : point));
  const [later] = ofStep(plan(order(programme(site(1, typed)))).signals);
  const days = (Date.parse(later!.raisedOn) - Date.parse(raised!.raisedOn)) / 86_400_000;
  expect(Math.abs(days)).toBeLessThanOrEqual(5);
});

test("a month of which much of the record is missing is told by itself, once its log is due", () => {
  const months = ["2030-08", "2030-09", "2030-10", "2030-11", "2030-12", "2031-01", "2031-02", "2031-03", "2031-04"];
  const record = months.map((month) => ({
    month,
    owed: 52,
    missing: month === "2031-04" ? 30 : 2,
    method: "sand-pan" as const,
    judgedFrom: `${month < "2030-12" ? "2030" : "2031"}-${month.slice(5) === "12" ? "01" : String(Number(month.slice(5)) + 1).padStart(2, "0")}-06`,
    days: 26,
    clumping: 1,
  }));
  const told = (today: string) =>
    plan(order([{ site: 1, streams: [], record }], { from: "2030-08", to: "2031-04", sayFrom: "2030-08", today }))
      .signals;
  expect(told("2031-05-05")).toEqual([]);
  const [signal, ...more] = told("2031-05-06");
  expect(more).toEqual([]);
  expect(signal).toMatchObject({
    measure: "completeness",
    chart: "monthly",
    direction: "down",
    raisedOn: "2031-04-30",
    state: "stands",
  });
  expect(signal!.after).toBeCloseTo(22 / 52, 12);
  expect(signal!.per30Days).toBeLessThan(-25);
});

/** Eight months of a site whose record misses 3 or 7 of 50 by turns, as few as no limit of its own can be told from. */
const RECORD_MONTHS = ["2030-09", "2030-10", "2030-11", "2030-12", "2031-01", "2031-02", "2031-03"];
function recordOf(number: number, missing: readonly number[], clumping = 1): SiteWatched {
  const record = RECORD_MONTHS.map((month, i) => {
    const next = RECORD_MONTHS[i + 1] ?? "2031-04";
    return {
      month,
      owed: 50,
      missing: missing[i]!,
      method: "sand-pan" as const,
      judgedFrom: `${next}-06`,
      days: 25,
      clumping,
    };
  });
  return { site: number, streams: [], record };
}
const ordinary = (number: number) =>
  recordOf(
    number,
    [4, 6, 5, 7, 4, 5, 6].map((one, i) => one + ((number + i) % 3) - 1),
  );
const uneven = [3, 7, 3, 7, 4, 7, 18];
const overRecords = (sites: readonly SiteWatched[]) =>
  plan(order(sites, { from: "2030-09", to: "2031-03", sayFrom: "2030-09", today: "2031-04-20" }));

test("what the other sites' months lead to expect finds a bad month of a young record, and is kept with its month", () => {
  const among = overRecords([recordOf(1, uneven), ...[2, 3, 4, 5, 6, 7, 8].map(ordinary)]);
  expect(overRecords([recordOf(1, uneven)]).signals).toEqual([]);
  expect(among.signals).toMatchObject([
    { site: 1, measure: "completeness", raisedOn: "2031-03-31", costDriedKg: null },
  ]);
  const before = among.months.map(({ month, recordBefore }) => ({ month, ...recordBefore }));
  // six months must be known of six sites: until March nothing was known beforehand
  expect(before.slice(0, 6).map(({ d0 }) => d0)).toEqual([0, 0, 0, 0, 0, 0]);
  expect(before[6]).toMatchObject({ month: "2031-03" });
  expect(before[6]!.d0).toBeGreaterThan(4);
});

test("where whole days are missing the interval of a record's signal is wider than that of single loads", () => {
  const others = [2, 3, 4, 5, 6, 7, 8].map(ordinary);
  const [single, clumped] = [1, 3].map(
    (clumping) => overRecords([recordOf(1, uneven, clumping), ...others]).signals[0]!,
  );
  expect(clumped!.change).toBe(single!.change);
  expect((clumped!.high - clumped!.low) / (single!.high - single!.low)).toBeCloseTo(Math.sqrt(3), 0);
  expect(clumped!.low).toBeLessThan(single!.low);
});
