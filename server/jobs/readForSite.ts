import { asPerson } from "#db/asPerson";
import { allSites, factsOf } from "#db/queries/sites";
import { daysOfMonth } from "#server/terms/days";
import type { Fact } from "#server/terms/facts";
import type { Answers, Bounds, Hints, Reading, Unreadable } from "#server/terms/row";
import { hintsFrom } from "./hints";
import { readBytes } from "./readBytes";
import type { Corridor } from "./record";
import { siteDay } from "./siteDay";

export interface LogToRead {
  readonly bytes: Uint8Array;
  /** null: a log of the programme, whose sites declare different things; it must say everything itself */
  readonly site: number | null;
  readonly period: string | null;
  readonly answers: Answers | null;
}

export interface LogRead {
  readonly reading: Reading | Unreadable;
  /** how it was read: enough to read it again the same way */
  readonly hints: Hints;
}

/**
 * Reads a log with what its site had declared for the days it speaks of.
 *
 * Which days these are is known only after reading; so where no month was given it is read with what holds today, and
 * once more where something else held in its last month.
 */
export async function readForSite(
  corridor: Corridor,
  bounds: Bounds,
  { bytes, site, period, answers }: LogToRead,
): Promise<LogRead> {
  const facts = site === null ? [] : await declared(corridor);
  const today = siteDay(corridor.clock(), facts, site ?? 0);
  const hintsOn = (day: string): Hints => ({ ...hintsFrom(facts, site ?? 0, day, period, answers), lastDay: today });
  const hints = hintsOn(period === null ? today : daysOfMonth(period).to);
  const reading = await readBytes({ bytes, hints, bounds });
  if ("refused" in reading || period !== null) return { reading, hints };
  const last = reading.rows.reduce<string | null>(
    (latest, { batch }) => (batch !== null && batch.day > (latest ?? "") ? batch.day : latest),
    null,
  );
  const then = last === null ? hints : hintsOn(last);
  if (JSON.stringify(then) === JSON.stringify(hints)) return { reading, hints };
  return { reading: await readBytes({ bytes, hints: then, bounds }), hints: then };
}

/** What a site has declared that helps to read a log of a month, or of today. */
export async function hintsFor(corridor: Corridor, site: number, period: string | null): Promise<Hints> {
  const facts = await declared(corridor);
  return hintsFrom(
    facts,
    site,
    period === null ? siteDay(corridor.clock(), facts, site) : daysOfMonth(period).to,
    period,
    null,
  );
}

function declared(corridor: Corridor): Promise<Fact[]> {
  return asPerson(corridor, async (tx) =>
    factsOf(
      tx,
      (await allSites(tx)).map(({ id }) => id),
      Number.MAX_SAFE_INTEGER,
    ),
  );
}
