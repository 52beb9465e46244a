import type { Grid, Sheet } from "#server/terms/grid";
import type { Hints, Reading, ReadingOnGrid, TableRead } from "#server/terms/row";
import type { SoFar } from "#server/terms/soFar";
import type { Column } from "./columns/column";
import { cellOfDayAbove } from "./columns/dayAbove";
import { type OrderFound, OrderShown } from "./columns/dayOrder";
import { findTables } from "./columns/findTables";
import { isUsed } from "./columns/looks";
import { recogniseColumns } from "./columns/recogniseColumns";
import { sidesOf } from "./columns/sides";
import { turned } from "./columns/turned";
import { headingRowOf, type Recognised, tableKey, withoutTables } from "./leftOut";
import { countsOf, questionsOf } from "./questions";
import { type DayReader, dayReader, settledDay } from "./rows/dayCells";
import { readRows } from "./rows/readRows";
import { tableAtHand } from "./rows/tableAtHand";
import { withCutRow } from "./rows/withCutRow";
import { withoutRepeats } from "./rows/withoutRepeats";
import { withSets } from "./rows/withSets";
import { readDay } from "./values/days";
import { Remembered } from "./values/remembered";

/**
 * Reads a log: which tables it has, what their columns mean, and what becomes of each row.
 *
 * Every row of the grid comes out with exactly one fate; one that is not counted has a reason. What is ambiguous is
 * held with its choices and never guessed; answers in `hints` win over everything that would be worked out. `tell`
 * learns how many rows of how many have been read. A part of a log is read on from what the part before it left:
 * null for the first.
 */
export function readLog(
  grid: Grid,
  hints: Hints,
  tell?: (rows: number, of: number) => void,
  before?: SoFar | null,
): ReadingOnGrid {
  const sheets = sheetsToRead(grid);
  const inAll = sheets.reduce((sum, sheet) => sum + sheet.rows.length, 0);
  let done = 0;
  const more = (rows: number) => {
    done += rows;
    tell?.(done, inAll);
  };
  more(0);
  const all = sheets.flatMap((sheet) => tablesOf(sheet, hints));
  const leftOut = new Set(hints.answers?.leftOut);
  const recognised = all.filter((one) => !leftOut.has(tableKey(one)));
  const order = orderOf(recognised, hints);
  const days = dayReader(order, hints);
  const oneDayEach = hasOneDayEach(recognised, days);
  const delimited = grid.format === "delimited";
  const tables = recognised.map(({ sheet, found, columns, dayTexts }) => {
    const dayCells = new Remembered((cell) => settledDay(dayTexts.of(cell), order, hints));
    const table = tableAtHand(sheet, found, columns, days, hints, dayCells, delimited, oneDayEach);
    return { sheet, found, table };
  });
  const read = sheets.map((sheet) =>
    readRows(
      sheet,
      tables.filter((table) => table.sheet === sheet),
      more,
      before ?? undefined,
    ),
  );
  const soFar = read.find((part) => part.soFar !== null)?.soFar ?? before ?? null;
  const whole = withCutRow(inOneList(read.map((part) => part.rows)), grid.notes, hints);
  const counting = withSets(withoutRepeats(whole), hints.answers);
  const rows =
    leftOut.size === 0
      ? counting
      : withoutTables(
          counting,
          all.filter((one) => leftOut.has(tableKey(one))),
        );
  return {
    format: grid.format,
    tables: all.map((one) =>
      leftOut.has(tableKey(one)) ? { ...told(one, null), leftOut: true } : told(one, order.order),
    ),
    questions:
      all.length > recognised.length && tables.length === 0
        ? []
        : questionsOf(tables, rows, order, hints, sheets[0]?.name ?? ""),
    rows,
    totals: read.flatMap((part) => part.totals),
    notes: [...grid.notes, ...notesOn(grid, sheets)],
    counts: countsOf(rows),
    ...(before === undefined || soFar === null ? {} : { soFar }),
  };
}

/**
 * The sheets of a file as they are read: one with tables side by side in parts, one with a load a column turned. No two
 * have the same name, so that sheet and row name a row for good.
 */
export function sheetsToRead({ sheets }: Grid): Sheet[] {
  const names = new Set<string>();
  return sheets.flatMap(partsOf).map((sheet) => {
    let { name } = sheet;
    while (names.has(name)) name = `${name} (again)`;
    names.add(name);
    return name === sheet.name ? sheet : { ...sheet, name };
  });
}

function partsOf(sheet: Sheet): Sheet[] {
  if (sheet.hidden) return [sheet];
  const upright = turned(sheet);
  return upright === null ? sidesOf(sheet) : [upright];
}

/** Which sheets are read otherwise than they stand: turned, or in parts. */
function notesOn(grid: Grid, sheets: readonly Sheet[]): Reading["notes"] {
  const own = new Set(grid.sheets.map(({ name }) => name));
  return sheets.flatMap(({ name }) => {
    if (own.has(name)) return [];
    return [{ code: name.endsWith(" (turned)") ? "sheet-turned" : "tables-side-by-side", detail: name }];
  });
}

/** Hidden sheets are left out; their rows are set aside. */
function tablesOf(sheet: Sheet, hints: Hints): Recognised[] {
  if (sheet.hidden) return [];
  const said = hints.answers?.headings;
  const headingRow = said !== undefined && Object.hasOwn(said, sheet.name) ? said[sheet.name] : undefined;
  const from = hints.answers?.headingsFrom;
  const first = from !== undefined && Object.hasOwn(from, sheet.name) ? from[sheet.name] : headingRow;
  return findTables(sheet, headingRow, first).map((found) => ({
    sheet,
    found,
    columns: recogniseColumns(sheet.name, found, sheet.rows, hints),
    dayTexts: new Remembered(readDay),
  }));
}

/** Several tables without a column of days, each under another day: as in a sheet for each day. */
function hasOneDayEach(recognised: readonly Recognised[], days: DayReader): boolean {
  const above = recognised
    .filter(({ columns }) => !columns.some(({ meaning }) => meaning === "day"))
    .map(({ sheet, found }) => cellOfDayAbove(sheet, found))
    .map((cell) => (cell === null ? null : days(cell)));
  const different = new Set(above.map((read) => (read?.kind === "day" ? read.day : null)));
  return above.length > 1 && different.size === above.length && !different.has(null);
}

function orderOf(recognised: readonly Recognised[], hints: Hints): OrderFound {
  const shown = new OrderShown(hints);
  for (const { sheet, found, columns, dayTexts } of recognised) {
    const column = columns.find(({ meaning }) => meaning === "day");
    if (column === undefined) continue;
    for (let at = found.from; at < found.to; at++) {
      const row = sheet.rows[at];
      if (row !== undefined) shown.add(dayTexts.at(row, column.index));
    }
  }
  return shown.found();
}

/** Most files have one sheet: its rows need no other list. */
function inOneList<T>(lists: readonly (readonly T[])[]): readonly T[] {
  const [first] = lists;
  return lists.length === 1 && first !== undefined ? first : lists.flat();
}

function told({ sheet, found, columns }: Recognised, order: TableRead["dayOrder"]): TableRead {
  const isNamed = ({ heading, meaning }: Column) => heading !== "" || meaning !== null;
  const body = columns.every(isNamed) ? [] : sheet.rows.slice(found.from, found.to);
  return {
    sheet: sheet.name,
    headingRow: headingRowOf(sheet, found),
    columns: columns
      .filter((column) => isNamed(column) || isUsed(body, column.index))
      .map(({ index: _index, candidates: _candidates, unitUnknown: _unknown, ...column }) => column),
    dayOrder: order,
  };
}
