import type { Batch, BatchWritten, Method } from "#server/terms/batch";
import { differing, told, toldAnew, toldFirst } from "./tell";

/** What a row once said of a batch; `at` orders it among everything that was recorded. */
export interface Saying {
  /** names the row among all logs, so that what it said later takes the place of what it said before */
  readonly row: string;
  readonly at: number;
  /** "dried": the row brought the dried weight alone */
  readonly part: "whole" | "dried";
  readonly written: BatchWritten;
  /** whether the batch would be in time if this row were its first */
  readonly inTime: boolean;
}

/** Somebody's word that the batch is none, or that another took its place. */
export interface TakenOut {
  readonly at: number;
}

/**
 * A batch as some rows tell it, in the order in which they did: what remains when the rows of another log are left out.
 *
 * Null when no row brings a load, or when it was taken out and nobody spoke of it since.
 */
export function retold(
  sayings: readonly Saying[],
  takenOut: readonly TakenOut[],
  names: { readonly id: string; readonly site: number; readonly methodOn: (day: string) => Method },
): Batch | null {
  let batch: Batch | null = null;
  let waiting: Saying[] = [];
  const last = new Map<string, BatchWritten>();
  const outs = takenOut.map(({ at }) => at).sort((a, b) => a - b);
  for (const saying of [...sayings].sort(inOrderOfRecords)) {
    while (outs[0] !== undefined && outs[0] < saying.at) {
      outs.shift();
      batch = null;
      waiting = [];
    }
    const before = last.get(saying.row);
    last.set(saying.row, saying.written);
    if (saying.part === "dried") {
      if (batch === null) waiting.push(saying);
      else batch = withDried(batch, saying);
    } else if (batch !== null) {
      batch = before === undefined ? told(batch, saying.written) : toldAnew(batch, before, saying.written);
    } else if (before === undefined || differing(before, saying.written).length > 0) {
      batch = waiting.reduce(withDried, first(saying, names));
      waiting = [];
    }
  }
  return outs.length > 0 ? null : batch;
}

function first(
  { written, inTime }: Saying,
  { id, site, methodOn }: { readonly id: string; readonly site: number; readonly methodOn: (day: string) => Method },
): Batch {
  return toldFirst(written, { id, site, inTime, method: written.method ?? methodOn(written.day) });
}

function withDried(batch: Batch, { written: { dried } }: Saying): Batch {
  return dried === null ? batch : { ...batch, dried, driedToCome: false };
}

/** Of one record loads before the dried weights that join them, rows in their order. */
function inOrderOfRecords(a: Saying, b: Saying): number {
  return (
    a.at - b.at ||
    Number(a.part === "dried") - Number(b.part === "dried") ||
    a.row.localeCompare(b.row, "en", { numeric: true })
  );
}
