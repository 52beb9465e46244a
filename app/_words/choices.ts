import type { Choice, Problem, ProblemCode } from "#server/terms/problem";
import type { RowRead } from "#server/terms/row";
import { dayInWords } from "./days";

/** What one choice puts in the place of the cell, and what would follow. */
export function choiceInWords({ put, yieldThen }: Choice): string {
  const day = /^\d{4}-\d{2}-\d{2}$/.test(put) ? dayInWords(put) : put;
  return yieldThen === null ? day : `${day}, which makes a dry yield of ${percent(yieldThen)}`;
}

/** Reasons that only doubt a cell which can be read: it may be right as it stands. */
const DOUBTS: readonly ProblemCode[] = ["out-more-than-in", "unit-slip-suspected"];

/** The doubted cell's own text as it can be put back, or null where it cannot be read without doubt. */
export function standsAsWritten({ code, text }: Problem): string | null {
  if (!DOUBTS.includes(code)) return null;
  const plain = text.trim().replace(/^(\d+),(\d{1,2})(?!\d)/, "$1.$2");
  return /^\d+(\.\d+)?\s*(kg|g|lb)?$/i.test(plain) ? plain : null;
}

/** The two weights of a row the other way round, where more came out than went in; null elsewhere. */
export function exchangedCells(row: RowRead): { readonly puts: Record<string, string>; readonly says: string } | null {
  if (!row.reasons.some(({ code }) => code === "out-more-than-in")) return null;
  const fresh = row.cells.find(({ meaning }) => meaning === "fresh");
  const dried = row.cells.find(({ meaning }) => meaning === "dried");
  const [inKg, outKg] = [row.batch?.fresh, row.batch?.dried];
  if (fresh === undefined || dried === undefined || inKg == null || outKg == null || outKg.value <= 0) return null;
  const at = (column: string) => `${row.sheet}!${column}${row.row}`;
  return {
    puts: { [at(fresh.column)]: `${outKg.exact} kg`, [at(dried.column)]: `${inKg.exact} kg` },
    says: `The two weights were exchanged: ${outKg.exact} kg fresh in, ${inKg.exact} kg dried out, which makes a dry yield of ${percent(inKg.value / outKg.value)}`,
  };
}

function percent(share: number): string {
  return `${(share * 100).toFixed(0)} %`;
}
