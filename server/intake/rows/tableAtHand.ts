import type { GridRow, Sheet } from "#server/terms/grid";
import type { Hints, Meaning } from "#server/terms/row";
import { type Column, CYLINDERS, FUEL_MEANINGS, isRead } from "../columns/column";
import { cellOfDayAbove } from "../columns/dayAbove";
import type { FoundTable } from "../columns/findTables";
import { panAbove } from "../columns/panAbove";
import { holdsRows } from "../columns/recogniseColumns";
import type { Remembered } from "../values/remembered";
import { isAbsent } from "../values/words";
import { cellReaders } from "./cellReaders";
import type { DayRead, DayReader } from "./dayCells";
import { fuelReader } from "./fuelNamed";
import type { ByMeaning, TableAtHand } from "./table";

const NO_DAY: DayRead = { kind: "absent" };

/** Gathers what the rows of a table share. */
export function tableAtHand(
  sheet: Sheet,
  found: FoundTable,
  columns: readonly Column[],
  days: DayReader,
  hints: Hints,
  dayCells: Remembered<DayRead>,
  delimited: boolean,
  oneDayEach: boolean,
): TableAtHand {
  const byMeaning: Partial<Record<Meaning, Column>> = {};
  for (const column of columns) if (column.meaning !== null) byMeaning[column.meaning] ??= column;
  const puts = hints.answers?.cells;
  return {
    sheet: sheet.name,
    columns,
    byMeaning,
    lookedUp: columns.filter(isRead),
    sealed: columns.filter((column) => !isRead(column)),
    fuels: columns.filter(({ meaning }) => meaning !== null && FUEL_MEANINGS.has(meaning) && !CYLINDERS.has(meaning)),
    holding: columns.filter((column) => holdsRows(column, columns)),
    width: found.headingAt.length === 0 ? columns.length : found.headings.length,
    delimited,
    ...daysWithoutColumn(sheet, found, days, hints, oneDayEach),
    panOfTable: panAbove(sheet, found, columns),
    fillsDown: writesDaysOnce(sheet.rows, found, byMeaning, dayCells),
    days,
    read: cellReaders(hints, dayCells),
    fuelNamed: fuelReader(hints.fuel),
    hints,
    setAside: new Set(hints.answers?.setAside),
    accepted: hints.answers?.asWritten === undefined ? null : new Set(hints.answers.asWritten),
    puts: puts !== undefined && Object.keys(puts).length > 0 ? puts : null,
  };
}

/** The day of a table without a column for it: answered, else the sheet's name, else what stands above each of several. */
function daysWithoutColumn(
  sheet: Sheet,
  found: FoundTable,
  days: DayReader,
  hints: Hints,
  oneDayEach: boolean,
): Pick<TableAtHand, "dayOfSheet" | "dayAbove"> {
  const answered = hints.answers?.days;
  const answer = answered !== undefined && Object.hasOwn(answered, sheet.name) ? answered[sheet.name] : undefined;
  const named = days({ text: answer ?? sheet.name, kind: "text", value: null });
  const cell = named.kind === "day" ? null : cellOfDayAbove(sheet, found);
  const above = cell === null ? null : days(cell);
  if (above?.kind !== "day") return { dayOfSheet: named.kind === "day" ? named : NO_DAY, dayAbove: null };
  return { dayOfSheet: oneDayEach ? above : NO_DAY, dayAbove: above.day };
}

/**
 * True when the table writes a day once and leaves it out below: rows without a day are more than twice as many as
 * rows that repeat the day above. A log that always repeats the day does not mean the one above by a blank.
 */
function writesDaysOnce(
  rows: readonly GridRow[],
  { from, to }: FoundTable,
  byMeaning: ByMeaning,
  days: Remembered<DayRead>,
): boolean {
  const column = byMeaning.day;
  const weights = [byMeaning.fresh, byMeaning.dried].flatMap((weight) => (weight === undefined ? [] : [weight.index]));
  if (column === undefined) return false;
  let blanks = 0;
  let repeats = 0;
  let above: string | null = null;
  for (let at = from; at < to; at++) {
    const row = rows[at];
    if (row === undefined) continue;
    const read = days.at(row, column.index);
    if (read.kind === "day") {
      if (read.day === above) repeats++;
      above = read.day;
    } else if (isAbsent(row.at(column.index).text.trim()))
      if (weights.some((index) => row.at(index).text.trim() !== "")) blanks++;
  }
  return blanks > repeats * 2;
}
