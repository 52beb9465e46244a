import { PRACTICE } from "#server/terms/factors";
import { type Fact, inForce } from "#server/terms/facts";
import type { Figure } from "#server/terms/figure";
import type { DaySum } from "#server/terms/sums";
import type { Completeness } from "./completeness";
import type { Fuel } from "./fuelOf";
import type { MassBalance } from "./massBalance";
import { byDay } from "./period";

/** What a period's records and figures say against each other. Each asks for a look; none is a verdict. */
export const CHECKS = [
  "logged-on-closed-day",
  "logged-while-not-open",
  "logged-though-nothing-produced",
  "closed-claimed-late",
  "more-here-than-owed",
  "numbers-missing",
  "yield-below-dry-matter",
  "fuel-below-what-water-needs",
  "fuel-above-usual",
  "firepower-unusual",
  "roasting-share-above-one",
  "fuel-overlaps",
  "fuel-without-amount",
  "fuel-without-loads",
] as const;
export type CheckCode = (typeof CHECKS)[number];

export interface Check {
  readonly code: CheckCode;
  /** the days it is about; empty where it is about the whole period */
  readonly days: readonly string[];
  /** what was found and what it was held against, in the unit of the figure or as a count */
  readonly value: number | null;
  readonly limit: number | null;
}

/** What the checks look at. */
export interface Checked {
  readonly sums: readonly DaySum[];
  readonly facts: readonly Fact[];
  readonly completeness: Completeness;
  readonly balance: MassBalance;
  readonly fuel: Fuel;
  readonly firepowerKw: number | null;
  readonly figures: Readonly<Record<"dry-yield" | "fuel-per-driven-off" | "roasting-share", Figure>>;
}

/** Checks of the record: what was logged against what was declared. */
export function recordChecks({ sums, facts, completeness }: Checked): Check[] {
  const logged = byDay(sums, "here").map((part) => part.day);
  const { days, gaps, count } = completeness.owed;
  const both = (list: readonly string[]) => logged.filter((day) => list.includes(day));
  const nothing = logged.filter((day) => inForce(facts, "nothing-produced", day) !== null);
  return [
    ...about("logged-on-closed-day", both([...days.closed, ...days.claimed])),
    ...about(
      "logged-while-not-open",
      logged.filter((day) => !days.open.includes(day)),
    ),
    ...about("logged-though-nothing-produced", nothing),
    ...about("closed-claimed-late", days.claimed),
    ...((completeness.excess ?? 0) > 0 ? [check("more-here-than-owed", completeness.here, count)] : []),
    ...(gaps.length > 0 ? [check("numbers-missing", gaps.length, null)] : []),
  ];
}

/** Checks of the figures against physics and against what is usual. An assumed dry matter raises none. */
export function figureChecks({ sums, balance, firepowerKw, figures, fuel }: Checked): Check[] {
  const found: Check[] = [];
  const dryYield = figures["dry-yield"];
  const { dryMatter } = balance;
  if (dryYield.known && dryMatter.basis === "measured" && dryYield.value < dryMatter.share) {
    found.push(check("yield-below-dry-matter", dryYield.value, dryMatter.share));
  }
  const heat = figures["fuel-per-driven-off"];
  // the sun is not metered, so its loads may need less fuel than their water does
  const bySun = sums.some((sum) => sum.method === "sun");
  if (heat.known && heat.value < PRACTICE.fuelImpossibleBelow.value && !bySun) {
    found.push(check("fuel-below-what-water-needs", heat.value, PRACTICE.fuelImpossibleBelow.value));
  }
  if (heat.known && heat.value > PRACTICE.fuelUnusualAbove.value) {
    found.push(check("fuel-above-usual", heat.value, PRACTICE.fuelUnusualAbove.value));
  }
  const { firepowerLow, firepowerHigh } = PRACTICE;
  if (firepowerKw !== null && firepowerKw < firepowerLow.value) {
    found.push(check("firepower-unusual", firepowerKw, firepowerLow.value));
  }
  if (firepowerKw !== null && firepowerKw > firepowerHigh.value) {
    found.push(check("firepower-unusual", firepowerKw, firepowerHigh.value));
  }
  const share = figures["roasting-share"];
  if (share.known && share.value > 1) found.push(check("roasting-share-above-one", share.value, 1));
  return [...found, ...fuelChecks(fuel)];
}

const LEFT_OUT = {
  "overlaps-better-known": "fuel-overlaps",
  "no-amount": "fuel-without-amount",
  "no-heat-for-its-unit": "fuel-without-amount",
  "nothing-dried-on-its-days": "fuel-without-loads",
} as const;

function fuelChecks(fuel: Fuel): Check[] {
  return fuel.leftOut.map(({ span, why }) => ({
    code: LEFT_OUT[why],
    days: [span.from, span.to],
    value: span.best,
    limit: null,
  }));
}

function about(code: CheckCode, days: readonly string[]): Check[] {
  return days.length === 0 ? [] : [{ code, days, value: days.length, limit: null }];
}

function check(code: CheckCode, value: number, limit: number | null): Check {
  return { code, days: [], value, limit };
}
