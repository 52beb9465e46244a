import { z } from "zod";
import { type StateRow, statesOf } from "#db/queries/files";
import type { Tx } from "#db/store";
import { canonical, sha256 } from "#server/evidence/canonical";
import type { Why } from "#server/terms/history";
import type { Hints } from "#server/terms/row";
import type { Brought } from "./lacking";
import type { Decided } from "./matchSite";
import type { PartsPlan } from "./parts";
import type { SlipPart } from "./slipPart";

/** How a file is counted part by part; kept with the part that is stored first, so that all others are counted just so. */
export interface Begun {
  readonly hints: Hints;
  /** of a file that is too large to be read whole: how it is taken apart */
  readonly parts?: PartsPlan;
  /** of a log that was read whole: about how many rows a part has */
  readonly rowsAPart?: number;
  /** it was counted before, and what its parts say takes the place of what it said then */
  readonly again?: true;
  /** batches that it lacks and that are to be withdrawn, and why it says something else than before */
  readonly withdraw?: readonly string[];
  readonly why?: Why;
  /** faults that somebody confirmed with it */
  readonly putRight?: NonNullable<Decided["putRight"]>;
}

/** What stands in the state of a file that is counted part by part: "read", or "settled" where it was counted before. */
export interface PartStored extends Partial<Begun> {
  readonly part: number;
  readonly slip: SlipPart;
  /** of a log of the programme: the sites that its rows are of */
  readonly sites?: readonly number[];
  /** which days it has, and of which files something came again, site by site */
  readonly brought?: readonly Brought[];
  /** with the first part: the mark of how all of them are counted */
  readonly as?: string;
}

type States = readonly StateRow[];

const partStored = z.object({
  part: z.int(),
  parts: z.object({}).optional(),
  slip: z.object({ rows: z.object({ rows: z.int(), counted: z.int(), held: z.int() }) }),
});

/** The parts of a file that are stored since it was last counted as a whole, in the order in which they were. */
export function partsStored(states: States): PartStored[] {
  const since = lastCounted(states);
  return states.flatMap((one) => (one.ledgerIndex > since && isPart(one) ? [one.detail as PartStored] : []));
}

/** The same while parts are added: what became of a file stays as it is, so each state of it is read once. */
export class PartsSoFar {
  private readonly file: string;
  private upTo = 0;
  /** the record in which the file was last counted as a whole; 0 where it never was */
  since = 0;
  isTakenBack = false;
  /** the parts that are stored since then, in the order in which they were */
  stored: readonly PartStored[] = [];

  constructor(file: string) {
    this.file = file;
  }

  async readOn(tx: Tx): Promise<this> {
    const states = await statesOf(tx, this.file, this.upTo);
    const since = lastCounted(states);
    if (since > 0) [this.since, this.stored] = [since, []];
    this.stored = [...this.stored, ...partsStored(states)];
    this.isTakenBack ||= states.some(({ state }) => state === "withdrawn");
    this.upTo = states.at(-1)?.ledgerIndex ?? this.upTo;
    return this;
  }
}

/** The record in which a file was last counted as a whole; 0 where it never was. */
export function lastCounted(states: States): number {
  return states.findLast(({ state }) => state === "counted")?.ledgerIndex ?? 0;
}

/** Whether a state says that a part of its file was stored. */
export function isPart(one: { readonly state: string; readonly detail: unknown } | undefined): boolean {
  return (one?.state === "read" || one?.state === "settled") && partStored.safeParse(one.detail).success;
}

/** How the parts of a file that are stored were begun; null where none is. */
export function begunAs([first]: readonly PartStored[]): (Begun & { readonly as: string }) | null {
  if (first?.hints === undefined) return null;
  const { part: _part, slip: _slip, sites: _sites, brought: _brought, hints, as, ...how } = first;
  return { ...how, hints, as: as ?? markOf({ ...how, hints }) };
}

/** The same for what is counted alike, also after it was stored. */
export function markOf(begun: Begun): string {
  return sha256(canonical(JSON.parse(JSON.stringify(begun))));
}

/** What is counted of a file whose parts are not all stored; null where none is. */
export function storedSoFar(states: States) {
  const stored = partsStored(states);
  const sum = (of: "rows" | "counted" | "held") => stored.reduce((all, { slip }) => all + slip.rows[of], 0);
  const [first] = stored;
  if (first === undefined) return null;
  return {
    parts: stored.length,
    rows: sum("rows"),
    counted: sum("counted"),
    held: sum("held"),
    /** true where it was too large for a page and goes on by the command that it came with */
    byCommand: first.parts !== undefined,
    /** true where all of it was counted before, and its other rows still count as they did then */
    again: first.again === true,
  };
}
