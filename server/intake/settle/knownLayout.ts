import type { Hints, Reading, TableRead } from "#server/terms/row";
import type { KnownLayout } from "./layout";

/** The layout of a log that counts, from how it was read: its tables, with the order of its dates where that is certain. */
export function knownLayout(
  file: string,
  { tables, rows }: Pick<Reading, "tables" | "rows">,
  hints: Hints,
  months: readonly string[],
): KnownLayout {
  const order = hints.answers?.dayOrder ?? orderShown(rows);
  return {
    file,
    month: hints.period ?? months[months.length - 1] ?? null,
    tables: tables.map((table) => ({ ...table, dayOrder: order ?? certainOrder(table) })),
    answers: hints.answers ?? null,
  };
}

/** Years first show themselves; without a cell that tells, day and month may stand either way round. */
function certainOrder({ dayOrder }: TableRead): TableRead["dayOrder"] {
  return dayOrder === "ymd" ? dayOrder : null;
}

const PARTS = /^\D*(\d{1,2})\s*[-/.]\s*(\d{1,2})(?!\d)/;

/** The order of dates that some counted row's day shows, as written beside as read; null where every day reads alike both ways. */
function orderShown(rows: Reading["rows"]): "dmy" | "mdy" | null {
  for (const { fate, batch, cells } of rows) {
    if (fate !== "counted" || batch === null) continue;
    const written = PARTS.exec(cells.find(({ meaning }) => meaning === "day")?.text ?? "");
    if (written === null || written[1] === undefined || Number(written[1]) === Number(written[2])) continue;
    const [month, day] = [Number(batch.day.slice(5, 7)), Number(batch.day.slice(8, 10))];
    if (Number(written[1]) === day && Number(written[2]) === month) return "dmy";
    if (Number(written[1]) === month && Number(written[2]) === day) return "mdy";
  }
  return null;
}
