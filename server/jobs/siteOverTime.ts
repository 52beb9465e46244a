import { daySumsWithin, fuelSpansTouching, seriesNumbers } from "#db/queries/compare";
import { sandUses, type TestCount, testCounts } from "#db/queries/siteOverTime";
import { factsOf, type Site } from "#db/queries/sites";
import type { Tx } from "#db/store";
import { USABLE_MARK } from "#server/compare/restsOnLittle";
import { dayStates, type StateOfDay } from "#server/measures/dayStates";
import { fuelReach } from "#server/measures/fuelBook";
import {
  type MethodOverTime,
  overTime,
  type Point,
  recordOverTime,
  type Step,
  stepFor,
} from "#server/measures/overTime";
import { byDay, type Period } from "#server/measures/period";
import { type PanAge, type SandRow, sandAge } from "#server/measures/sandAge";
import { daysOfMonth, plusMonths } from "#server/terms/days";
import { type Fact, type FactKind, inForce } from "#server/terms/facts";
import type { AsKnownOn } from "#server/terms/figure";
import type { FuelSpan } from "#server/terms/fuel";
import type { Summed } from "#server/terms/sums";
import { SAID_WHEN_CHANGED } from "./streams";

/** What a site did over some months, as the panels of its page show it. */
export interface SiteOverTime {
  readonly period: Period;
  readonly step: Step;
  readonly methods: readonly MethodOverTime[];
  readonly record: readonly Point[];
  /** share of what was owed below which a point rests on little */
  readonly usableMark: number;
  /** declarations that may explain a change, each on its first day: events, and what became different */
  readonly events: readonly Fact[];
  readonly days: readonly { readonly day: string; readonly state: StateOfDay }[];
  readonly sand: Sand;
  readonly tests: readonly TestCount[];
}

export interface Sand {
  /** of the days shown; pans by name */
  readonly pans: readonly PanAge[];
  /** the most loads that the site declared; null where it declared none */
  readonly limit: number | null;
  /** loads that name no pan, so that nobody knows whose sand they aged */
  readonly withoutPan: number;
}

const SHOWN: readonly Summed[] = ["here", "fresh", "dry-yield", "pan-time", "scale"];
/** How far back new sand is looked for, so that a page costs no more after ten years than after two. */
export const SAND_MONTHS = 12;
const CHANGES: readonly FactKind[] = [
  "method",
  "pans",
  "main-fuel",
  "fresh-weighed",
  "dried-weighed",
  "feed",
  "log-layout",
];

/** What a site did from one month to another (both in), as known on; what is read grows with the months shown alone. */
export async function siteOverTime(
  tx: Tx,
  site: Site,
  months: { readonly from: string; readonly to: string },
  today: string,
  asKnownOn: AsKnownOn,
): Promise<SiteOverTime> {
  const size = asKnownOn.ledgerSize;
  const period = { from: daysOfMonth(months.from).from, to: daysOfMonth(months.to).to };
  const all = await factsOf(tx, [site.id], size);
  const facts = all.filter((fact) => fact.site === site.id);
  const spans = await spansTouching(tx, site.id, period, size);
  const reach = [{ site: site.id, ...fuelReach(spans, period) }];
  const sums = await daySumsWithin(tx, reach, SHOWN, size);
  const unbroken = inForce(facts, "numbering", period.to)?.unbroken ?? false;
  const numbered = unbroken ? await seriesNumbers(tx, [{ site: site.id, ...period }], size) : [];
  const step = stepFor(period);
  const past = { period, step, sums, spans, facts, numbered, asKnownOn };
  const earliest = daysOfMonth(plusMonths(months.from, -SAND_MONTHS)).from;
  const uses = await sandUses(tx, site.id, { earliest, ...period }, size);
  const logged = byDay(sums, "here").map(({ day }) => day);
  return {
    period,
    step,
    methods: overTime(past),
    record: recordOverTime(past),
    usableMark:
      inForce(
        all.filter((fact) => fact.site === 0),
        "target",
        period.to,
        "record-usable",
      )?.value ?? USABLE_MARK,
    events: eventsOf(facts, period),
    days: dayStates(period, facts, logged, today),
    sand: {
      pans: sandAge(uses.flatMap(onPan)).map((pan) => shownOf(pan, period)),
      limit: inForce(facts, "sand-limit", period.to)?.loads ?? null,
      withoutPan: uses.reduce((sum, { pan, loads }) => (pan === null ? sum + loads : sum), 0),
    },
    tests: await testCounts(tx, site.id, period.from, period.to, size),
  };
}

function onPan({ pan, ...use }: Omit<SandRow, "pan"> & { readonly pan: string | null }): SandRow[] {
  return pan === null ? [] : [{ ...use, pan }];
}

function shownOf({ pan, newOn, days }: PanAge, { from }: Period): PanAge {
  return { pan, newOn: newOn.filter((day) => day >= from), days: days.filter(({ day }) => day >= from) };
}

/** Spans that touch the period, and those that touch these: which of two overlapping ones stands can hang on a third. */
async function spansTouching(tx: Tx, site: number, period: Period, size: number): Promise<FuelSpan[]> {
  let reached = period;
  for (;;) {
    const spans = await fuelSpansTouching(tx, [{ site, ...reached }], period.to, size);
    const from = [reached.from, ...spans.map((span) => span.from)].sort()[0] ?? reached.from;
    const to = [reached.to, ...spans.map((span) => span.to)].sort().at(-1) ?? reached.to;
    if (from === reached.from && to === reached.to) return spans;
    reached = { from, to };
  }
}

/** Events of the period, and declarations that changed something that was declared before. */
function eventsOf(facts: readonly Fact[], { from, to }: Period): Fact[] {
  const told = facts.filter(({ kind, value }) => value !== null && (kind === "event" || CHANGES.includes(kind)));
  const standing = told.filter((fact) => inForce(facts, fact.kind, fact.from, fact.key) === fact.value);
  const differs = (fact: Fact) => {
    const before = standing
      .filter((other) => other.kind === fact.kind && other.key === fact.key && other.from < fact.from)
      .sort((a, b) => (a.from < b.from ? -1 : 1))
      .at(-1);
    if (before === undefined) return SAID_WHEN_CHANGED.includes(fact.kind);
    return JSON.stringify(before.value) !== JSON.stringify(fact.value);
  };
  return standing
    .filter((fact) => fact.from >= from && fact.from <= to && (fact.kind === "event" || differs(fact)))
    .sort((a, b) => (a.from < b.from ? -1 : 1));
}
