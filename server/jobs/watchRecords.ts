import { RECORD_SHARE } from "#server/drift/accepted";
import { incompleteMonths, monthsBeforehand } from "#server/drift/completeness";
import type { Beforehand } from "#server/drift/moderation";
import { recordInterval } from "#server/drift/recordInterval";
import { daysOfMonth } from "#server/terms/days";
import type { Signal } from "#server/terms/signal";
import type { SiteWatched } from "./watchSites";

/** Chance of a false one for a month of one site's record. */
export function recordChance(expected: number, sites: number): number {
  return Math.min(0.01, (expected * RECORD_SHARE) / Math.max(1, sites));
}

/** What a month's records are held to: the chance of a false one, and what the months before lead to expect of a site's. */
export interface RecordHeld {
  readonly recordChance: number;
  /** null: a site's own months alone */
  readonly recordBefore: Beforehand | null;
}

/** What the records of all sites, up to the month before one, lead to expect of how much a site's months differ. */
export function recordBefore(sites: readonly SiteWatched[], month: string, today: string): Beforehand {
  return monthsBeforehand(
    sites.map(({ record }) => record.filter((one) => one.month < month && one.judgedFrom <= today)),
  );
}

/**
 * Sites of whose month clearly more is missing than of their months before, as signals of their own kind: one point a
 * month, one-sided, judged once the log is due.
 */
export function recordSignals(
  sites: readonly SiteWatched[],
  month: string,
  { recordChance, recordBefore }: RecordHeld,
  today: string,
): Signal[] {
  return sites.flatMap(({ site, record }) => {
    const until = record.filter((one) => one.month <= month && one.judgedFrom <= today);
    const last = until.at(-1);
    if (last?.month !== month) return [];
    const told = incompleteMonths(until, recordChance, recordBefore ?? undefined).find((one) => one.month === month);
    if (told === undefined) return [];
    const { from, to } = daysOfMonth(month);
    const [before, after] = [1 - told.usual, 1 - told.share];
    const missing = recordInterval(last, Math.max(last.clumping, told.differ), last.days);
    return [
      {
        site,
        method: last.method,
        measure: "completeness",
        chart: "monthly",
        confirms: null,
        raisedOn: to,
        direction: "down",
        since: from,
        sinceFrom: from,
        sinceTo: to,
        dateDetermined: true,
        change: after / before - 1,
        low: (1 - missing.high) / before - 1,
        high: (1 - missing.low) / before - 1,
        level: 0.95,
        before,
        after,
        per30Days: ((after - before) * last.owed * 30) / Number(to.slice(8)),
        daysSince: 1,
      } as const,
    ];
  });
}

/** Whether a later month of the site's record, up to `month`, was as usual again. */
export function recordIsBack(
  sites: readonly SiteWatched[],
  { site, raisedOn }: Pick<Signal, "site" | "raisedOn">,
  month: string,
  held: RecordHeld,
  today: string,
): boolean {
  const record = sites.find((one) => one.site === site)?.record ?? [];
  const last = record.findLast((one) => one.month <= month && one.judgedFrom <= today);
  if (last === undefined || last.month <= raisedOn.slice(0, 7)) return false;
  return (
    recordSignals(
      sites.filter((one) => one.site === site),
      last.month,
      held,
      today,
    ).length === 0
  );
}
