import type { Grid } from "#server/terms/grid";
import type { Hints, RowOnGrid } from "#server/terms/row";

/**
 * Holds the last row of a text that breaks off in it, with fewer cells than any row above: a weight may be missing its end.
 * Once a person has put anything in its place, the row stands.
 */
export function withCutRow(rows: readonly RowOnGrid[], notes: Grid["notes"], { answers }: Hints): readonly RowOnGrid[] {
  const note = notes.find(({ code }) => code === "last-row-cut-short");
  const last = rows[rows.length - 1];
  if (note === undefined || last === undefined || last.fate !== "counted" || String(last.row) !== note.detail)
    return rows;
  const own = `${last.sheet}!`;
  const isPut = (key: string) =>
    key.startsWith(own) && /^[A-Z]+(\d+)$/.exec(key.slice(own.length))?.[1] === note.detail;
  if (Object.keys(answers?.cells ?? {}).some(isPut)) return rows;
  const at = { sheet: last.sheet, row: last.row, column: null };
  if (answers?.asWritten?.includes(`${last.sheet}!${last.row}`)) {
    const stands = { code: "accepted-as-written", at, text: "", doubt: "row-cut-short" } as const;
    return [...rows.slice(0, -1), { ...last, reasons: [...last.reasons, stands] }];
  }
  const reasons = [...last.reasons, { code: "row-cut-short", at, text: "" } as const];
  return [...rows.slice(0, -1), { ...last, fate: "held", reasons }];
}
