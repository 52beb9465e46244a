import { isDeepStrictEqual } from "node:util";
import { asPerson } from "#db/asPerson";
import { type LinkSaid, linksSaid, rowsEverHeld } from "#db/queries/fileLinks";
import { statesOf } from "#db/queries/files";
import { type Bounds, type FuelOn, fuelOn, type Hints, type RowRead } from "#server/terms/row";
import { lastCounted } from "./partsStored";
import { keyOf } from "./planBatches";
import { readBytes } from "./readBytes";
import type { Corridor } from "./record";
import { type SlipPart, slipPart } from "./slipPart";
import { turnForOthers } from "./turnForOthers";
import { aside } from "./underWay";

/** Of so many rows it is asked at once what they said: it keeps the embedded database for some fifty milliseconds. */
const ROWS_ASKED = 4_000;

type Place = Pick<LinkSaid, "sheet" | "row">;
type Are = Readonly<Record<string, string>>;
export type Link = Omit<LinkSaid, "part"> & { readonly part: string };

/** A log as it was read when it was last counted, and the record in which it was. */
export interface AsCounted {
  readonly rows: readonly RowRead[];
  /** what persons said that rows are */
  readonly are: Are;
  readonly since: number;
}

/** What the rows of one part said when their log was last counted. */
export interface PartBefore {
  readonly links: readonly Link[];
  readonly fuel: readonly FuelOn[];
  /** the batches that all other rows of the log speak of */
  readonly elsewhere: Pick<ReadonlySet<string>, "has">;
}

/**
 * What a log said when it was last counted, while it is counted again part by part: its rows as they were read then, and
 * the batches that they speak of. Parts that are in already are told to it.
 */
export class CountedBefore {
  private readonly rows: ReadonlyMap<string, RowRead>;
  private readonly are: Are;
  private readonly everHeld: ReadonlySet<string>;
  private readonly links = new Map<string, readonly Link[]>();
  /** how often rows speak of a batch */
  private readonly spoken = new Map<string, number>();

  constructor({ rows, are }: Pick<AsCounted, "rows" | "are">, links: readonly LinkSaid[], everHeld: readonly Place[]) {
    this.rows = new Map(rows.map((row) => [keyOf(row), row]));
    this.are = are;
    this.everHeld = new Set(everHeld.map(keyOf));
    for (const [key, last] of byRow(links)) {
      // what a row spoke of before it was no batch any more was taken back then
      if (this.rows.get(key)?.fate === "counted") this.speaks(key, last);
    }
  }

  of(rows: readonly Place[]): PartBefore {
    const own = [...new Set(rows.map(keyOf))];
    const links = own.flatMap((key) => this.links.get(key) ?? []);
    const here = new Map<string, number>();
    for (const { batch } of links) here.set(batch, (here.get(batch) ?? 0) + 1);
    return {
      links,
      fuel: own.flatMap((key) => this.rows.get(key) ?? []).flatMap(fuelOn),
      elsewhere: { has: (batch) => (this.spoken.get(batch) ?? 0) > (here.get(batch) ?? 0) },
    };
  }

  /** Some rows were counted again: they speak of these batches now and of no other. */
  told(rows: readonly Place[], links: readonly Omit<Link, "at">[]): void {
    const now = byRow(links);
    // no part asks once more for rows of another: when they spoke does not matter any more
    for (const key of rows.map(keyOf))
      this.speaks(
        key,
        (now.get(key) ?? []).map((link) => ({ ...link, at: 0 })),
      );
  }

  private speaks(key: string, links: readonly Link[]): void {
    for (const { batch } of this.links.get(key) ?? []) this.spoken.set(batch, (this.spoken.get(batch) ?? 0) - 1);
    for (const { batch } of links) this.spoken.set(batch, (this.spoken.get(batch) ?? 0) + 1);
    this.links.set(key, links);
  }

  /** Read word for word as then, and nothing but their reading ever held one: counting them again changes nothing. */
  areAsBefore(rows: readonly RowRead[], are: Are): boolean {
    return rows.every((row) => {
      const key = keyOf(row);
      if (row.fate === "counted" && (this.everHeld.has(key) || are[key] !== this.are[key])) return false;
      return isDeepStrictEqual(row, this.rows.get(key));
    });
  }
}

function byRow<T extends Place>(links: readonly T[]): Map<string, T[]> {
  const rows = new Map<string, T[]>();
  for (const link of links) {
    const own = rows.get(keyOf(link));
    if (own === undefined) rows.set(keyOf(link), [link]);
    else own.push(link);
  }
  return rows;
}

/** Reads a log as it was last counted; null where it never was, or cannot be read so any more. */
export async function readAsCounted(
  corridor: Corridor,
  bounds: Bounds,
  file: string,
  bytes: Uint8Array,
): Promise<AsCounted | null> {
  const states = await asPerson(corridor, (tx) => statesOf(tx, file));
  const counted = states.findLast(({ state }) => state === "counted")?.detail as { hints: Hints } | undefined;
  if (counted === undefined) return null;
  const { hints } = counted;
  const reading = await aside(() => readBytes({ bytes, hints, bounds }));
  if ("refused" in reading) return null;
  return { rows: reading.rows, are: hints.answers?.are ?? {}, since: lastCounted(states) };
}

/** The same with what was stored of it. */
export async function countedBefore(
  corridor: Corridor,
  file: string,
  before: Pick<AsCounted, "rows" | "are">,
): Promise<CountedBefore> {
  const last = before.rows.reduce((latest, { row }) => Math.max(latest, row), 0);
  const links: LinkSaid[] = [];
  for (let from = 0; from <= last; from += ROWS_ASKED) {
    for (const link of await asPerson(corridor, (tx) => linksSaid(tx, file, from, from + ROWS_ASKED))) links.push(link);
    await turnForOthers();
  }
  const held = await asPerson(corridor, (tx) => rowsEverHeld(tx, file));
  return new CountedBefore(before, links, held);
}

/** The sending slip of a part that says what it said before: nothing is stored of it. */
export function partAsBefore(rows: readonly RowRead[]): SlipPart {
  const slip = slipPart(rows, [], { totals: [] });
  const same = rows.filter(({ fate, batch }) => fate === "counted" && batch !== null).length;
  return { ...slip, batches: { ...slip.batches, same } };
}
