import { asPerson } from "#db/asPerson";
import { allSites, factsOf } from "#db/queries/sites";
import { faultsOf } from "#server/intake/faults/faultsOf";
import { headingsRemembered } from "#server/intake/settle/headingsRemembered";
import { confirmedNow, inFull, isInShort } from "#server/intake/settle/inFull";
import { rememberedOf } from "#server/intake/settle/layout";
import { laidOver, type Said, saysNothing } from "#server/terms/answers";
import { daysOfMonth } from "#server/terms/days";
import type { Fact } from "#server/terms/facts";
import type { PutRight } from "#server/terms/fault";
import type { Answers, Bounds, Hints, Reading, Remembered, Unreadable } from "#server/terms/row";
import { hintsFrom } from "./hints";
import { layoutsOf } from "./layouts";
import { readBytes } from "./readBytes";
import type { Corridor } from "./record";
import { siteDay } from "./siteDay";

export interface LogToRead {
  readonly bytes: Uint8Array;
  /** null: a log of the programme, whose sites declare different things; it must say everything itself */
  readonly site: number | null;
  readonly period: string | null;
  readonly answers: Said | null;
  /** the file that it is, where it is here already */
  readonly file?: string;
  /** what was remembered when it was last counted; not given: what the site's other logs have settled */
  readonly remembered?: Remembered | null;
}

export interface LogRead {
  readonly reading: Reading | Unreadable;
  /** how it was read: enough to read it again the same way */
  readonly hints: Hints;
  /** faults that were confirmed with these answers; without any before */
  readonly putRight?: readonly PutRight[];
}

/**
 * Reads a log with what its site had declared for the days it speaks of, and with what its earlier logs have settled.
 *
 * Which days these are is known only after reading; so where no month was given it is read with what holds today, and
 * once more where something else held in its last month.
 */
export function readForSite(corridor: Corridor, bounds: Bounds, order: LogToRead): Promise<LogRead> {
  if (order.file === undefined) return readNow(corridor, bounds, order);
  const { bytes: _bytes, ...said } = order;
  const key = JSON.stringify([corridor.person, said]);
  const shared = underWay.get(key) ?? readNow(corridor, bounds, order).finally(() => underWay.delete(key));
  underWay.set(key, shared);
  return shared;
}

/** A page asks for several things of one log at once; while it is being read for the one, the others wait for that. */
const underWay = new Map<string, Promise<LogRead>>();

async function readNow(corridor: Corridor, bounds: Bounds, order: LogToRead): Promise<LogRead> {
  const { bytes } = order;
  const { alike: _alike, ...said } = order.answers ?? {};
  const first = await readAsDeclared(corridor, bounds, order, saysNothing(said) ? null : said);
  if ("refused" in first.reading) return first;
  const again = async ({ hints }: LogRead, changed: Partial<Hints>): Promise<LogRead> => {
    const then = { ...hints, ...changed };
    return { hints: then, reading: await readBytes({ bytes, hints: then, bounds, look: "faults" }) };
  };
  const remembered = await rememberedFor(corridor, bounds, order, first.reading, first.hints);
  let read = first;
  if (remembered !== null) read = await again(first, { answers: laidOver(remembered.answers, said), remembered });
  if ("refused" in read.reading) return read;
  const whole: Said = laidOver(read.hints.answers ?? null, order.answers);
  if (!isInShort(whole)) return read;
  const faults = faultsOf(read.reading, read.hints);
  const settled = await again(read, { answers: inFull(read.reading, faults, whole) });
  return { ...settled, putRight: confirmedNow(faults, whole) };
}

async function readAsDeclared(
  corridor: Corridor,
  bounds: Bounds,
  { bytes, site, period }: LogToRead,
  answers: Answers | null,
): Promise<LogRead> {
  const facts = site === null ? [] : await declared(corridor);
  const today = siteDay(corridor.clock(), facts, site ?? 0);
  const hintsOn = (day: string): Hints => ({ ...hintsFrom(facts, site ?? 0, day, period, answers), lastDay: today });
  const hints = hintsOn(period === null ? today : daysOfMonth(period).to);
  const reading = await readBytes({ bytes, hints, bounds, look: "faults" });
  if ("refused" in reading || period !== null) return { reading, hints };
  const last = reading.rows.reduce<string | null>(
    (latest, { batch }) => (batch !== null && batch.day > (latest ?? "") ? batch.day : latest),
    null,
  );
  const then = last === null ? hints : hintsOn(last);
  if (JSON.stringify(then) === JSON.stringify(hints)) return { reading, hints };
  return { reading: await readBytes({ bytes, hints: then, bounds, look: "faults" }), hints: then };
}

/** What earlier logs of the site settled for this one; what was taken over when it was counted stays as it was then. */
async function rememberedFor(
  corridor: Corridor,
  bounds: Bounds,
  { bytes, site, file, answers, remembered }: LogToRead,
  reading: Reading,
  hints: Hints,
): Promise<Remembered | null> {
  if (site === null || answers?.alone === true) return null;
  if (remembered !== undefined) return remembered;
  const known = await layoutsOf(corridor, bounds, site, file ?? null);
  const pointed = headingsRemembered(reading.rows, known);
  if (pointed === null) return rememberedOf(reading, reading.tables, known);
  const headed = await readBytes({ bytes, hints: { ...hints, answers: laidOver(pointed.answers, answers) }, bounds });
  const beside = "refused" in headed ? null : rememberedOf(headed, headed.tables, known);
  const { file: from, month } = beside ?? pointed.layout;
  return { file: from, month, answers: laidOver(beside?.answers ?? null, pointed.answers) };
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
