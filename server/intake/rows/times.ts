import type { Quantity } from "#server/terms/batch";
import type { Hints } from "#server/terms/row";
import type { Column } from "../columns/column";
import { minutesBetween } from "../values/clocks";
import { DAWN } from "../values/dawnClock";
import { quantity } from "../values/exact";
import { readMinutes } from "../values/minutes";
import { durationOf } from "./cellReaders";
import { choicesOf, type Reasons } from "./reasons";
import { cellIn, isPut, type RowAtHand, type TableAtHand } from "./table";

export interface TimesRead {
  readonly startMinute: number | null;
  readonly endMinute: number | null;
  readonly minutes: Quantity | null;
}

/** Start, end and minutes of a row. Minutes as written win; else they run from start to end, over midnight if need be. */
export function timesOf(table: TableAtHand, row: RowAtHand, minuteOfDay: number | null, reasons: Reasons): TimesRead {
  const startColumn = table.byMeaning.start;
  const endColumn = table.byMeaning.end;
  const written = minutesAt(table, row, reasons);
  const start =
    clockAt(table, row, startColumn, written !== null, reasons) ??
    (startColumn === undefined && minuteOfDay !== null ? fromMidnight(minuteOfDay, table.hints) : null);
  const end = clockAt(table, row, endColumn, written !== null, reasons);
  if (written !== null || start === null || end === null)
    return { startMinute: start, endMinute: end, minutes: written };
  const between = minutesBetween(start, end);
  if (between === null) reasons.add("end-before-start", endColumn ?? null);
  if (between?.overMidnight) reasons.add("midnight-crossed", endColumn ?? null);
  return { startMinute: start, endMinute: end, minutes: between === null ? null : quantity(String(between.minutes)) };
}

/** Minutes as the row writes them; null where it does not, or where they cannot be read. */
export function minutesAt(table: TableAtHand, row: RowAtHand, reasons: Reasons): Quantity | null {
  const column = table.byMeaning.minutes;
  if (column === undefined) return null;
  const read = isPut(table, row, column)
    ? readMinutes(cellIn(row, column), durationOf(column, "."))
    : table.read.duration(column, row);
  if (read.kind === "minutes") return read.minutes;
  if (read.kind === "problem") reasons.add(read.code, column, choicesOf(read.puts));
  return null;
}

/** A clock time; what cannot be read holds the row only when the minutes hang on it. */
function clockAt(
  table: TableAtHand,
  row: RowAtHand,
  column: Column | undefined,
  minutesKnown: boolean,
  reasons: Reasons,
): number | null {
  if (column === undefined) return null;
  const read = table.read.clock(column, row);
  if (read.kind === "absent") return null;
  if (read.kind === "problem") {
    reasons.add(minutesKnown ? "cell-not-read" : "minutes-not-a-number", column, choicesOf(read.puts));
    return null;
  }
  const isOpen = read.isOpen && !isPut(table, row, column);
  return isOpen ? fromMidnight(read.minute, table.hints) : read.minute;
}

/** A time that counts its hours from dawn, where a person has said so of the log, counted from midnight. */
function fromMidnight(minute: number, hints: Hints): number {
  return hints.answers?.clock === "dawn" ? (minute + DAWN) % (24 * 60) : minute;
}
