import { z } from "zod";
import type { statesOf } from "#db/queries/files";
import type { Hints } from "#server/terms/row";
import type { Brought } from "./lacking";
import type { PartsPlan } from "./parts";
import type { SlipPart } from "./slipPart";

/** What stands in the state "read" of a file that is counted part by part. */
export interface PartStored {
  readonly part: number;
  readonly slip: SlipPart;
  /** of a log of the programme: the sites that its rows are of */
  readonly sites?: readonly number[];
  /** which days it has, and of which files something came again, site by site */
  readonly brought?: readonly Brought[];
  /** with the first part: how all of them are read */
  readonly hints?: Hints;
  /** of a file that is too large to be read whole: how it is taken apart */
  readonly parts?: PartsPlan;
}

type States = Awaited<ReturnType<typeof statesOf>>;

const partStored = z.object({
  part: z.int(),
  parts: z.object({}).optional(),
  slip: z.object({ rows: z.object({ rows: z.int(), counted: z.int(), held: z.int() }) }),
});

/** The parts of a file that are stored, in their order. */
export function partsStored(states: States): PartStored[] {
  return states.flatMap((one) => (isPart(one) ? [one.detail as PartStored] : []));
}

/** Whether a state says that a part of its file was stored. */
export function isPart(one: { readonly state: string; readonly detail: unknown } | undefined): boolean {
  return one?.state === "read" && partStored.safeParse(one.detail).success;
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
  };
}
