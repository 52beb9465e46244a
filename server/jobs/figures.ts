import { numberedBatches } from "#db/queries/batches";
import { fuelSpansOf } from "#db/queries/fuel";
import { factsOf, type Site } from "#db/queries/sites";
import { daySumsOf } from "#db/queries/sums";
import type { Tx } from "#db/store";
import { fuelReach } from "#server/measures/fuelBook";
import { type SiteMonth, siteMonth } from "#server/measures/siteMonth";
import type { Method } from "#server/terms/batch";
import { daysOfMonth, monthsBetween } from "#server/terms/days";
import { inForce } from "#server/terms/facts";
import type { AsKnownOn } from "#server/terms/figure";

/** One month of one site and one drying method; `method` null while nothing was logged. */
export interface MonthFigures extends SiteMonth {
  readonly code: string;
  readonly month: string;
}

/**
 * The figures of a site, month by month from `from` to `to` (both in), as known on.
 *
 * A month in which two methods were used has one entry for each; a month without any log has one all the same.
 */
export async function figuresOf(
  tx: Tx,
  site: Site,
  from: string,
  to: string,
  asKnownOn: AsKnownOn,
): Promise<MonthFigures[]> {
  const size = asKnownOn.ledgerSize;
  const last = daysOfMonth(to).to;
  const facts = await factsOf(tx, [site.id], size);
  const spans = await fuelSpansOf(tx, [site.id], "0001-01-01", "9999-12-31", size);
  const periods = monthsBetween(from, to).map((month) => ({ month, ...daysOfMonth(month) }));
  const reach = periods.map((period) => fuelReach(spans, period).from).sort()[0] ?? daysOfMonth(from).from;
  const sums = await daySumsOf(tx, [site.id], reach, last, size);
  const unbroken =
    inForce(
      facts.filter((fact) => fact.site === site.id),
      "numbering",
      last,
    )?.unbroken ?? false;
  const numbered = unbroken ? await numberedBatches(tx, site.id, size) : [];
  return periods.flatMap(({ month, ...period }) => {
    const used = [
      ...new Set(sums.filter(({ day }) => day >= period.from && day <= period.to).map(({ method }) => method)),
    ].sort();
    const methods: (Method | null)[] = used.length > 1 ? used : [used[0] ?? null];
    return methods.map((method) => ({
      code: site.code,
      month,
      ...siteMonth({ site: site.id, period, method, sums, spans, facts, numbered, asKnownOn }),
    }));
  });
}
