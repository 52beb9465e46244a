import type { Column, Table, TableOf } from "./table";
import { laidOut } from "./table";
import { answersTable } from "./tables/answers";
import { batchesTable } from "./tables/batches";
import { cellsTable } from "./tables/cells";
import { factsTable } from "./tables/facts";
import { figuresTable } from "./tables/figures";
import { fuelEntriesTable } from "./tables/fuelEntries";
import { fuelSpansTable } from "./tables/fuelSpans";
import { originalsTable } from "./tables/originals";
import { publicationsTable } from "./tables/publications";
import { rowsNotCountedTable } from "./tables/rowsNotCounted";
import { signalAnswersTable } from "./tables/signalAnswers";
import { signalsTable } from "./tables/signals";

/** The evidence tables, in the order in which a person who checks opens them. A new table is a line here. */
export const TABLES = {
  figures: figuresTable,
  batches: batchesTable,
  cells: cellsTable,
  "rows-not-counted": rowsNotCountedTable,
  originals: originalsTable,
  answers: answersTable,
  "fuel-spans": fuelSpansTable,
  "fuel-entries": fuelEntriesTable,
  facts: factsTable,
  publications: publicationsTable,
  signals: signalsTable,
  "signal-answers": signalAnswersTable,
} as const;

interface ColumnItem {
  readonly table: string;
  readonly column: Column;
}

const columnsTable: TableOf<ColumnItem> = {
  name: "columns",
  says: "What every column of every table holds.",
  columns: [
    { name: "table", kind: "text", unit: null, says: "table", of: ({ table }) => table },
    { name: "column", kind: "text", unit: null, says: "column", of: ({ column }) => column.name },
    {
      name: "kind",
      kind: "text",
      unit: null,
      says: "text, number, whole, yes-no, day or time",
      of: ({ column }) => column.kind,
    },
    { name: "unit", kind: "text", unit: null, says: "unit", of: ({ column }) => column.unit },
    { name: "says", kind: "text", unit: null, says: "what it holds", of: ({ column }) => column.says },
    {
      name: "guarded",
      kind: "yes-no",
      unit: null,
      says: "in CSV a text that a spreadsheet would run has an apostrophe in front; take exactly one off",
      of: ({ column }) => column.kind === "text",
    },
  ],
};

/** The table that explains the others, itself included. */
export function columnsExplained(): Table {
  const explained: readonly { readonly name: string; readonly columns: readonly Column[] }[] = [
    ...Object.values(TABLES),
    columnsTable,
  ];
  return laidOut(
    columnsTable,
    explained.flatMap(({ name, columns }) => columns.map((column) => ({ table: name, column }))),
  );
}

export const TABLE_NAMES = [
  "figures",
  "batches",
  "cells",
  "rows-not-counted",
  "originals",
  "answers",
  "fuel-spans",
  "fuel-entries",
  "facts",
  "publications",
  "signals",
  "signal-answers",
  "columns",
] as const;
export type TableName = (typeof TABLE_NAMES)[number];
