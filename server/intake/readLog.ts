import type { Grid } from "#server/terms/grid";
import type { Hints, Reading, TableRead } from "#server/terms/row";
import { cellAt } from "./columns/column";
import { dayOrder } from "./columns/dayOrder";
import { findTables } from "./columns/findTables";
import { recogniseColumns } from "./columns/recogniseColumns";
import { countsOf, questionsOf } from "./questions";
import { dayReader } from "./rows/dayCells";
import { readRows, type TableToRead } from "./rows/readRows";
import { tableAtHand } from "./rows/tableAtHand";
import { withoutRepeats } from "./rows/withoutRepeats";
import { readDay } from "./values/days";

/**
 * Reads a log: which tables it has, what their columns mean, and what becomes of each row.
 *
 * Every row of the grid comes out with exactly one fate; one that is not counted has a reason. What is ambiguous is
 * held with its choices and never guessed; answers in `hints` win over everything that would be worked out.
 */
export function readLog(grid: Grid, hints: Hints): Reading {
  const sheets = grid.sheets.map((sheet) => {
    const tables = sheet.hidden ? [] : findTables(sheet);
    return {
      sheet,
      tables: tables.map((found) => ({ found, columns: recogniseColumns(sheet.name, found, sheet.rows, hints) })),
    };
  });
  const order = dayOrder(daysWritten(sheets), hints);
  const days = dayReader(order, hints);
  const tables: TableToRead[] = [];
  const reads: TableRead[] = [];
  const read = sheets.map(({ sheet, tables: found }) => {
    const ready = found.map(({ found: table, columns }) => ({
      found: table,
      table: tableAtHand(sheet, table, columns, days, hints, grid.format === "delimited"),
    }));
    tables.push(...ready);
    for (const { found: table, table: atHand } of ready) {
      const headingRow = sheet.rows[table.headingAt[table.headingAt.length - 1] ?? 0]?.row ?? 1;
      const columns = atHand.columns.map(({ index: _, candidates: __, unitUnknown: ___, ...column }) => column);
      reads.push({ sheet: sheet.name, headingRow, columns, dayOrder: order.order });
    }
    return readRows(sheet, ready);
  });
  const rows = withoutRepeats(read.flatMap((part) => part.rows));
  return {
    format: grid.format,
    tables: reads,
    questions: questionsOf(tables, rows, order, hints, grid.sheets[0]?.name ?? ""),
    rows,
    totals: read.flatMap((part) => part.totals),
    notes: grid.notes,
    counts: countsOf(rows),
  };
}

type SheetsFound = readonly {
  readonly sheet: Grid["sheets"][number];
  readonly tables: readonly {
    readonly found: ReturnType<typeof findTables>[number];
    readonly columns: ReturnType<typeof recogniseColumns>;
  }[];
}[];

function* daysWritten(sheets: SheetsFound) {
  for (const { sheet, tables } of sheets) {
    for (const { found, columns } of tables) {
      const column = columns.find(({ meaning }) => meaning === "day");
      if (column === undefined) continue;
      for (const row of sheet.rows.slice(found.from, found.to)) yield readDay(cellAt(row, column.index));
    }
  }
}
