import { isDay } from "#server/terms/days";
import type { Column } from "../columns/column";
import type { DayRead } from "./dayCells";
import { choicesOf, type Reasons } from "./reasons";
import { type Carried, cellIn, isPut, type RowAtHand, type TableAtHand } from "./table";

/** The production day of a row. Where days are written once, the last one holds; a day that cannot be read ends that. */
export function dayOfRow(table: TableAtHand, row: RowAtHand, carried: Carried, reasons: Reasons): DayRead {
  const column = dayColumn(table);
  if (column === undefined) return table.dayOfSheet;
  const said = table.read.day(column, row);
  const put = isPut(table, row, column) ? cellIn(row, column).text.trim() : null;
  const isDayPut = put !== null && isDay(put);
  if (isDayPut && said.kind === "problem" && said.code === "day-outside-period") reasons.stand(said.code, column);
  const read: DayRead = isDayPut ? { kind: "day", day: put, minute: null, filled: false } : said;
  if (read.kind === "day") {
    carried.day = read;
    return read;
  }
  if (read.kind === "problem") carried.day = null;
  if (read.kind === "absent" && table.fillsDown && carried.day !== null)
    return { kind: "day", day: carried.day.day, minute: null, filled: true };
  return read;
}

/** The reason why a row has no day, with the day above as a choice where there is one. */
export function sayWhyNoDay(table: TableAtHand, day: DayRead, carried: Carried, reasons: Reasons): void {
  const column = dayColumn(table) ?? null;
  if (day.kind === "problem") reasons.add(day.code, column, choicesOf(day.puts));
  if (day.kind !== "absent" || reasons.speakOf("day-missing")) return;
  reasons.add("day-missing", column, choicesOf(carried.day === null ? [] : [carried.day.day]));
}

/** The column of days; a sheet of dried weights alone may only say when they were weighed. */
function dayColumn(table: TableAtHand): Column | undefined {
  return table.byMeaning.day ?? (table.byMeaning.fresh === undefined ? table.byMeaning["dried-day"] : undefined);
}
