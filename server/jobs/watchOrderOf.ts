import { asPerson } from "#db/asPerson";
import { dayOf, daysOfMonth, monthOf, monthsBetween, plusMonths } from "#server/terms/days";
import { type Fact, inForce } from "#server/terms/facts";
import { EDITION } from "#server/terms/figure";
import type { Corridor } from "./record";
import type { WatchOrder } from "./watchOrder";
import { answerRow, monthRows, signalRows, standingAnswers, streamRows } from "./watchRead";
import { type SitesWatched, sitesWatched } from "./watchSites";
import { STANDS_MONTHS } from "./watchStates";

const BEGINNING = "0001-01-01";
const END = "9999-12-31";
const EVERYTHING = Number.MAX_SAFE_INTEGER;
/** A month's record is judged up to so many months after it. */
const JUDGED_MONTHS = 2;

/**
 * The order to watch the months from `earliest` on, as known at a size of the ledger and on the day it was then; null while
 * there is nothing to watch. `toldUpTo`: what was told by watching counts up to this record; else all of it.
 */
export async function orderOf(
  corridor: Corridor,
  size: number,
  today: string,
  earliest: string,
  toldUpTo = EVERYTHING,
): Promise<WatchOrder | null> {
  const thisMonth = monthOf(today);
  const watched = await sitesWatched(corridor.store, thisMonth, size);
  const span = monthsWith(watched, thisMonth);
  if (span === null) return null;
  const touched = [earliest, plusMonths(thisMonth, -JUDGED_MONTHS)].sort()[0] ?? earliest;
  const sayFrom = between(span, touched);
  const from = between(span, plusMonths(sayFrom, 1 - STANDS_MONTHS));
  return asPerson(corridor, async (tx) => ({
    edition: EDITION,
    knownSize: size,
    today,
    sites: watched.sites,
    from,
    to: span.to,
    sayFrom,
    accepted: acceptedBy(watched.programme, from, span.to),
    answers: (await standingAnswers(tx, null, size)).map(answerRow),
    signals: await signalRows(tx, BEGINNING, END, null, toldUpTo),
    months: await monthRows(tx, from, span.to, toldUpTo),
    streams: await streamRows(tx, from, span.to, toldUpTo),
  }));
}

interface Span {
  readonly from: string;
  readonly to: string;
}

/** The month, or the end of the span that it lies beyond. */
function between({ from, to }: Span, month: string): string {
  if (month < from) return from;
  return month > to ? to : month;
}

/** The first and last month with anything to watch, as far as the ledger's clock has come. */
function monthsWith({ sites }: SitesWatched, thisMonth: string): Span | null {
  const months = sites.flatMap(({ streams, record }) => [
    ...streams.flatMap(({ series: { day } }) => [day[0], day.at(-1)].map((one) => monthOf(dayOf(one ?? 0)))),
    ...record.map(({ month }) => month),
  ]);
  const known = months.filter((month) => month <= thisMonth).sort();
  const [from, to] = [known[0], known.at(-1)];
  return from === undefined || to === undefined ? null : { from, to };
}

function acceptedBy(programme: readonly Fact[], from: string, to: string): WatchOrder["accepted"] {
  return Object.fromEntries(
    monthsBetween(from, to).flatMap((month) => {
      const said = inForce(programme, "false-alarms", daysOfMonth(month).to);
      return said === null ? [] : [[month, said] as const];
    }),
  );
}
