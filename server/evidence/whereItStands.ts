import type { Fate } from "#server/terms/problem";
import type { CellRead, Meaning } from "#server/terms/row";

/** A row that a batch was read from. */
export interface Standing {
  readonly batch: string;
  /** what the log is called aloud */
  readonly log: string;
  readonly file: string;
  /** SHA-256 of the original; null where the person may see its rows but not the whole log */
  readonly sha256: string | null;
  /** false once the log was taken back */
  readonly stands: boolean;
  readonly sheet: string;
  readonly row: number;
  /** place of the row among the rows of its log, from 1 */
  readonly at: number;
  readonly part: "whole" | "dried";
  readonly fate: Fate;
  /** the record that said so */
  readonly ledgerIndex: number;
  readonly cells: readonly CellRead[];
}

/** Where one measured value of a batch was written. */
export interface WrittenAt {
  readonly standing: Standing;
  /** "C", or "C+D" where several cells were added up */
  readonly column: string;
  readonly text: string;
}

/**
 * Where a batch's value was written, by the row that said it last in a log that stands; null where none says it.
 *
 * A later row that leaves the cell blank takes nothing back, so the one before it is where the value stands. Cells that
 * were added up are joined by "+", those that give the value together (start and end) by "to".
 */
export function writtenAt(standings: readonly Standing[], ...meanings: readonly Meaning[]): WrittenAt | null {
  for (const standing of latestFirst(standings)) {
    const said = meanings.map((meaning) =>
      standing.cells.filter((cell) => cell.meaning === meaning && cell.text.trim() !== ""),
    );
    if (said.some((cells) => cells.length === 0)) continue;
    const column = said.flatMap((cells) => cells.map((cell) => cell.column)).join("+");
    return { standing, column, text: said.map((cells) => cells.map(({ text }) => text).join(" + ")).join(" to ") };
  }
  return null;
}

/** What of a batch is traced to its cell, value by value. */
export const TRACED = ["fresh", "dried", "minutes"] as const;

/** Where each traced value of a batch was written. */
export function whereWritten(standings: readonly Standing[]): Record<(typeof TRACED)[number], WrittenAt | null> {
  return {
    fresh: writtenAt(standings, "fresh"),
    dried: writtenAt(standings, "dried"),
    minutes: writtenAt(standings, "minutes") ?? writtenAt(standings, "start", "end"),
  };
}

/** The row that last said the batch as a whole, in a log that stands; null where there is none. */
export function saidLast(standings: readonly Standing[]): Standing | null {
  return latestFirst(standings).find(({ part }) => part === "whole") ?? null;
}

function latestFirst(standings: readonly Standing[]): Standing[] {
  return standings
    .filter(({ stands }) => stands)
    .sort((a, b) => b.ledgerIndex - a.ledgerIndex || order(a.file, b.file) || order(a.sheet, b.sheet) || a.row - b.row);
}

function order(a: string, b: string): number {
  return a < b ? -1 : Number(a > b);
}
