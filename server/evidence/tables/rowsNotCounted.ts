import { type Fate, holds, type Problem } from "#server/terms/problem";
import type { CellRead } from "#server/terms/row";
import type { TableOf } from "../table";

/** A row that is not counted: held for an answer, or set aside. */
export interface RowItem {
  readonly site: string | null;
  readonly log: string;
  readonly sha256: string | null;
  readonly state: string;
  readonly sheet: string;
  readonly row: number;
  readonly fate: Exclude<Fate, "counted">;
  readonly reasons: readonly Problem[];
  readonly cells: readonly CellRead[];
  readonly ledgerIndex: number;
  /** the reasons as sentences, from the words room */
  readonly sentences: readonly string[];
}

/** The reasons why a row is not counted; remarks that would not keep it from counting are left out. */
export function decisive({
  fate,
  reasons,
}: {
  readonly fate: Fate;
  readonly reasons: readonly Problem[];
}): readonly Problem[] {
  return fate === "held" ? reasons.filter(({ code }) => holds(code)) : reasons;
}

export const rowsNotCountedTable: TableOf<RowItem> = {
  name: "rows-not-counted",
  says: "Every row that is held for an answer or set aside, one line each, with its reasons. Of rows set aside the cells are in the original alone.",
  columns: [
    {
      name: "site",
      kind: "text",
      unit: null,
      says: "code of the site; empty where the row names none",
      of: ({ site }) => site,
    },
    { name: "log", kind: "text", unit: null, says: "sending slip of the log", of: ({ log }) => log },
    { name: "log_sha256", kind: "text", unit: null, says: "SHA-256 of the log", of: ({ sha256 }) => sha256 },
    { name: "log_state", kind: "text", unit: null, says: "what became of the log", of: ({ state }) => state },
    { name: "sheet", kind: "text", unit: null, says: "sheet", of: ({ sheet }) => sheet },
    { name: "row", kind: "whole", unit: null, says: "row in the sheet, from 1", of: ({ row }) => row },
    { name: "fate", kind: "text", unit: null, says: "held or set-aside", of: ({ fate }) => fate },
    {
      name: "reasons",
      kind: "text",
      unit: null,
      says: "codes of the reasons, separated by blanks",
      of: (item) =>
        decisive(item)
          .map(({ code }) => code)
          .join(" "),
    },
    {
      name: "column",
      kind: "text",
      unit: null,
      says: "column of the first reason; empty where the whole row is meant",
      of: (item) => decisive(item)[0]?.at.column ?? null,
    },
    {
      name: "written",
      kind: "text",
      unit: null,
      says: "the cell of the first reason as it was written",
      of: (item) => decisive(item)[0]?.text || null,
    },
    {
      name: "sentences",
      kind: "text",
      unit: null,
      says: "the reasons in words",
      of: ({ sentences }) => sentences.join(" "),
    },
    {
      name: "cells",
      kind: "text",
      unit: null,
      says: "cells of a held row as they were written",
      of: ({ cells }) => cells.map(({ column, text }) => `${column}: ${text}`).join("; ") || null,
    },
    {
      name: "ledger_index",
      kind: "whole",
      unit: null,
      says: "record that gave it this fate",
      of: ({ ledgerIndex }) => ledgerIndex,
    },
  ],
};
