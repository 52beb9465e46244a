import { lastWatched } from "#db/queries/signals";
import type { Tx } from "#db/store";
import { daysOfMonth, monthOf, plusMonths } from "#server/terms/days";
import { type SignalRow, signalKey, streamKey } from "./watchOrder";
import { signalRows } from "./watchRead";
import { lastMonthOf, STANDS_MONTHS } from "./watchStates";

/** Signals raised in some months (both in), each as it stood at the end of the last; of one site, or of all that the person may see. */
export async function signalsOf(
  tx: Tx,
  from: string,
  to: string,
  site: number | null,
  size: number,
): Promise<SignalRow[]> {
  const rows = await signalRows(tx, daysOfMonth(from).from, daysOfMonth(to).to, site, size);
  return atEndOf(rows, to);
}

/** The signals that stand at the end of a month: of each stream the one said last. */
export async function signalsStanding(tx: Tx, month: string, size: number): Promise<SignalRow[]> {
  const signals = await signalsOf(tx, plusMonths(month, 1 - STANDS_MONTHS), month, null, size);
  return lastStanding(signals);
}

/**
 * Of each stream the standing signal that was said last. One whose change was said again later stands no more once the
 * later one is answered: it is answered with it.
 */
export function lastStanding(signals: readonly SignalRow[]): SignalRow[] {
  const isSaidLater = (one: SignalRow, other: SignalRow) =>
    streamKey(one) === streamKey(other) &&
    other.raisedOn > one.raisedOn &&
    (other.state === "stands" || (other.state === "ended" && other.direction === one.direction));
  return signals.filter((one) => one.state === "stands" && !signals.some((other) => isSaidLater(one, other)));
}

/** Everything raised up to the last month that was watched, as it stands at its end. */
export async function signalsNow(
  tx: Tx,
  site: number | null,
  size: number,
): Promise<{ signals: SignalRow[]; month: string | null }> {
  const month = await lastWatched(tx, size);
  return { month, signals: month === null ? [] : await signalsOf(tx, "0001-01", month, site, size) };
}

/** Of every signal the row that holds at the end of a month; one that nobody answered stands for three months. */
export function atEndOf(rows: readonly SignalRow[], month: string): SignalRow[] {
  const last = new Map<string, SignalRow>();
  for (const row of rows) {
    if (row.month > month || monthOf(row.raisedOn) > month) continue;
    const before = last.get(signalKey(row));
    if (before === undefined || row.month > before.month) last.set(signalKey(row), row);
  }
  return [...last.values()].map((row) =>
    row.state === "stands" && month > lastMonthOf(row) ? { ...row, state: "unanswered" as const } : row,
  );
}
