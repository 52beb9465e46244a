import type { CellRead } from "#server/terms/row";
import type { TableOf } from "../table";
import type { Standing } from "../whereItStands";
import type { BatchItem } from "./batches";

/** One cell that a batch was read from. */
export interface CellItem {
  readonly site: string;
  readonly day: string;
  readonly standing: Standing;
  readonly cell: CellRead;
}

/** Every cell of every row that speaks of a batch, in the order of logs, sheets and rows as known. */
export function cellsOf({ site, batch, standings }: BatchItem): CellItem[] {
  return standings.flatMap((standing) => standing.cells.map((cell) => ({ site, day: batch.day, standing, cell })));
}

export const cellsTable: TableOf<CellItem> = {
  name: "cells",
  says: "Every cell that a batch was read from, as it was written. Names, remarks and what is not read are sealed and not here.",
  columns: [
    { name: "site", kind: "text", unit: null, says: "code of the site", of: ({ site }) => site },
    { name: "day", kind: "day", unit: null, says: "roasting day of the batch", of: ({ day }) => day },
    { name: "batch", kind: "text", unit: null, says: "id of the batch", of: ({ standing }) => standing.batch },
    {
      name: "part",
      kind: "text",
      unit: null,
      says: "whole, or dried for a row that only brought the dried weight",
      of: ({ standing }) => standing.part,
    },
    { name: "log", kind: "text", unit: null, says: "sending slip of the log", of: ({ standing }) => standing.log },
    { name: "log_sha256", kind: "text", unit: null, says: "SHA-256 of the log", of: ({ standing }) => standing.sha256 },
    {
      name: "log_stands",
      kind: "yes-no",
      unit: null,
      says: "false: the log was taken back",
      of: ({ standing }) => standing.stands,
    },
    { name: "sheet", kind: "text", unit: null, says: "sheet", of: ({ standing }) => standing.sheet },
    { name: "row", kind: "whole", unit: null, says: "row in the sheet, from 1", of: ({ standing }) => standing.row },
    { name: "column", kind: "text", unit: null, says: "column in the sheet", of: ({ cell }) => cell.column },
    {
      name: "meaning",
      kind: "text",
      unit: null,
      says: "what the column was taken for",
      of: ({ cell }) => cell.meaning,
    },
    { name: "written", kind: "text", unit: null, says: "the cell as it was written", of: ({ cell }) => cell.text },
    {
      name: "ledger_index",
      kind: "whole",
      unit: null,
      says: "record that read the row into the batch",
      of: ({ standing }) => standing.ledgerIndex,
    },
  ],
};
