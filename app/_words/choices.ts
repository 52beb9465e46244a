import type { Choice, Problem, ProblemCode } from "#server/terms/problem";
import type { RowRead } from "#server/terms/row";
import { dayInWords, listInWords } from "./days";
import { MEANING_WORDS } from "./meanings";

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

/** One answer to a doubt: what it puts into which cells, and what follows. */
export interface Settling {
  readonly puts: Readonly<Record<string, string>>;
  readonly says: string;
}

/** The answers that settle one doubt about one or several cells of a row; that all is right as it stands among them. */
export function settlingsOf(row: RowRead, reasons: readonly Problem[]): Settling[] {
  const several = reasons.length > 1;
  const at = ({ at: { column } }: Problem) => `${row.sheet}!${column}${row.row}`;
  const exchange = reasons.some(({ code }) => code === "out-more-than-in") ? exchangedCells(row) : null;
  const listed = reasons.flatMap((reason) => {
    const cell = row.cells.find(({ column }) => column === reason.at.column);
    const named = several && cell !== undefined ? `${MEANING_WORDS[cell.meaning]} is ` : "";
    return (reason.choices ?? []).map((choice) => ({
      puts: { [at(reason)]: choice.put },
      says: `${named}${choiceInWords(choice)}`,
    }));
  });
  const chosen = [...(exchange === null ? [] : [exchange]), ...listed];
  const written = reasons.map((reason) => [at(reason), standsAsWritten(reason)] as const);
  const stands = written.flatMap(([cell, text]) => (text === null ? [] : [[cell, text] as const]));
  if (stands.length === 0 || stands.length < written.length) return chosen;
  const says = `${several ? "Both are" : "It is"} right as ${several ? "they stand" : "it stands"}: ${listInWords(reasons.map(({ text }) => text))}`;
  return [...chosen, { puts: Object.fromEntries(stands), says }];
}

/** The two weights of a row the other way round, where more came out than went in; null elsewhere. */
export function exchangedCells(row: RowRead): Settling | null {
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
