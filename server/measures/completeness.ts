import { type AsKnownOn, type Figure, known, unknown } from "#server/terms/figure";
import type { DaySum, Summed } from "#server/terms/sums";
import type { Owed } from "./owed";
import { byDay, countOf } from "./period";

/** For which figures it is counted how many loads are usable; for fuel: both weights, on days whose fuel is known. */
export const USABLE_FOR = ["fresh", "dry-yield", "pan-time", "minutes", "fuel"] as const;
export type UsableFor = (typeof USABLE_FOR)[number];

/** The steps of record completeness: owed → here → in time → usable, each a count. */
export interface Completeness {
  readonly owed: Owed;
  readonly here: number;
  readonly inTime: number;
  readonly usable: Readonly<Record<UsableFor, number>>;
  /** dried weights still to come */
  readonly toCome: number;
  /** owed and not here; null where nobody declared what was owed */
  readonly missing: number | null;
  /** here beyond what was owed: shown, never credited */
  readonly excess: number | null;
  /** true when anything came or nothing-produced was filed; null while the site was not open */
  readonly reported: boolean | null;
  readonly hereShare: Figure;
  readonly inTimeShare: Figure;
  readonly usableShares: Readonly<Record<UsableFor, Figure>>;
}

/**
 * Record completeness of a period: how much of what was owed is here, was in time, and can be used for each figure.
 *
 * Shares are min(count, owed) / owed, so that a file sent twice under new numbers cannot lift them above one; what is
 * here beyond what was owed is `excess`. A share of nothing owed is unknown with its reason, never 0 or 1.
 * Identity: max(owed, here) = missing + here.
 *
 * completeness(4 owed, 3 here, 2 in time, 3 with both weights) // here 3/4, in time 2/4, usable for dry yield 3/4
 */
export function completeness(
  sums: readonly DaySum[],
  owed: Owed,
  fuelDays: ReadonlySet<string>,
  asKnownOn: AsKnownOn,
): Completeness {
  const counted = (measure: Summed) => countOf(byDay(sums, measure), owed.of);
  const here = counted("here");
  const share = (used: number) => shareOfOwed(used, here, owed, asKnownOn);
  const inTime = counted("in-time");
  const paired = byDay(sums, "dry-yield").filter(({ day }) => fuelDays.has(day));
  const usable = usableOf((figure) => (figure === "fuel" ? countOf(paired, owed.of) : counted(figure)));
  return {
    owed,
    here,
    inTime,
    usable,
    toCome: counted("to-come"),
    missing: owed.count === null ? null : Math.max(0, owed.count - here),
    excess: owed.count === null ? null : Math.max(0, here - owed.count),
    reported: owed.days.open.length === 0 ? null : here > 0 || owed.days.nothingProduced.length > 0,
    hereShare: share(here),
    inTimeShare: share(inTime),
    usableShares: usableOf((figure) => share(usable[figure])),
  };
}

function usableOf<T>(value: (figure: UsableFor) => T): Record<UsableFor, T> {
  return {
    fresh: value("fresh"),
    "dry-yield": value("dry-yield"),
    "pan-time": value("pan-time"),
    minutes: value("minutes"),
    fuel: value("fuel"),
  };
}

function shareOfOwed(used: number, here: number, owed: Owed, asKnownOn: AsKnownOn): Figure {
  const rests = { used, here, owed: owed.count, of: owed.of };
  if (owed.count === null || owed.count === 0) {
    return unknown({ why: owed.why ?? "nothing-owed", unit: "share", restsOn: rests, asKnownOn });
  }
  return known({ value: Math.min(used, owed.count) / owed.count, unit: "share", restsOn: rests, asKnownOn });
}
