import type { Cell, Grid, Sheet } from "#server/terms/grid";
import type { Hints, Reading, TableRead } from "#server/terms/row";
import { type Column, cellAt } from "./columns/column";
import { dayOrder } from "./columns/dayOrder";
import { type FoundTable, findTables } from "./columns/findTables";
import { recogniseColumns } from "./columns/recogniseColumns";
import { countsOf, questionsOf } from "./questions";
import { dayReader } from "./rows/dayCells";
import { readRows } from "./rows/readRows";
import { tableAtHand } from "./rows/tableAtHand";
import { withoutRepeats } from "./rows/withoutRepeats";
import { type DayText, dayTexts } from "./values/days";

interface Recognised {
  readonly sheet: Sheet;
  readonly found: FoundTable;
  readonly columns: readonly Column[];
}

/**
 * Reads a log: which tables it has, what their columns mean, and what becomes of each row.
 *
 * Every row of the grid comes out with exactly one fate; one that is not counted has a reason. What is ambiguous is
 * held with its choices and never guessed; answers in `hints` win over everything that would be worked out.
 */
export function readLog(grid: Grid, hints: Hints): Reading {
  const recognised = grid.sheets.flatMap((sheet) => tablesOf(sheet, hints));
  const texts = dayTexts();
  const order = dayOrder(daysWritten(recognised, texts), hints);
  const days = dayReader(texts, order, hints);
  const tables = recognised.map(({ sheet, found, columns }) => ({
    sheet,
    found,
    table: tableAtHand(sheet, found, columns, days, hints, grid.format === "delimited"),
  }));
  const read = grid.sheets.map((sheet) =>
    readRows(
      sheet,
      tables.filter((table) => table.sheet === sheet),
    ),
  );
  const rows = withoutRepeats(read.flatMap((part) => part.rows));
  return {
    format: grid.format,
    tables: recognised.map((one) => told(one, order.order)),
    questions: questionsOf(tables, rows, order, hints, grid.sheets[0]?.name ?? ""),
    rows,
    totals: read.flatMap((part) => part.totals),
    notes: grid.notes,
    counts: countsOf(rows),
  };
}

/** Hidden sheets are left out; their rows are set aside. */
function tablesOf(sheet: Sheet, hints: Hints): Recognised[] {
  if (sheet.hidden) return [];
  return findTables(sheet).map((found) => ({
    sheet,
    found,
    columns: recogniseColumns(sheet.name, found, sheet.rows, hints),
  }));
}

function* daysWritten(recognised: readonly Recognised[], read: (cell: Cell) => DayText): Generator<DayText> {
  for (const { sheet, found, columns } of recognised) {
    const column = columns.find(({ meaning }) => meaning === "day");
    if (column === undefined) continue;
    for (let at = found.from; at < found.to; at++) {
      const row = sheet.rows[at];
      if (row !== undefined) yield read(cellAt(row, column.index));
    }
  }
}

function told({ sheet, found, columns }: Recognised, order: TableRead["dayOrder"]): TableRead {
  const heading = sheet.rows[found.headingAt[found.headingAt.length - 1] ?? 0];
  return {
    sheet: sheet.name,
    headingRow: heading?.row ?? 1,
    columns: columns.map(({ index: _index, candidates: _candidates, unitUnknown: _unknown, ...column }) => column),
    dayOrder: order,
  };
}
