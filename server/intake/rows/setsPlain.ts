import type { RowOnGrid } from "#server/terms/row";

const PLUS = 43;
const AND = 38;
/** Numbers of loads that were weighed as one: "3+4+5", "3 & 4". */
const NUMBERS = /^\s*[\p{L}\p{N}/.-]+(?:\s*[+&]\s*[\p{L}\p{N}/.-]+)+\s*$/u;

/** The numbers of a set, or null for any other number of a load. */
export function numbersOfSet(number: string | null): readonly string[] | null {
  if (number === null || !namesSeveral(number) || !NUMBERS.test(number)) return null;
  return number.split(/[+&]/).map((part) => part.trim());
}

function namesSeveral(number: string): boolean {
  for (let at = 0; at < number.length; at++) {
    const code = number.charCodeAt(at);
    if (code === PLUS || code === AND) return true;
  }
  return false;
}

/**
 * Rows that the log itself says were weighed together: a dried weight under "3+4+5" beside loads 3, 4 and 5 that have none.
 * Each list names first the row with the weight, then the others, as positions in `rows`.
 */
export function setsPlainlySaid(rows: readonly RowOnGrid[]): number[][] {
  const isHolder = (row: RowOnGrid) =>
    row.driedOnly && row.fate === "counted" && numbersOfSet(row.batch?.number ?? null) !== null;
  if (!rows.some(isHolder)) return [];
  const waiting = new Map<string, number[]>();
  const found: number[][] = [];
  rows.forEach(({ fate, batch, sheet }, at) => {
    if (fate !== "counted" || batch?.number == null || batch.fresh === null || batch.dried !== null) return;
    const key = `${sheet}!${batch.number}`;
    waiting.set(key, [...(waiting.get(key) ?? []), at]);
  });
  rows.forEach(({ fate, batch, driedOnly, sheet }, at) => {
    const numbers = fate === "counted" && driedOnly ? numbersOfSet(batch?.number ?? null) : null;
    if (numbers === null || batch === null) return;
    const members = numbers.map((number) => nearestBefore(rows, waiting.get(`${sheet}!${number}`) ?? [], batch.day));
    if (members.every((member) => member !== null)) found.push([at, ...members]);
  });
  return found;
}

/** Of loads with the same number, the last one on or before the day of the weighing. */
function nearestBefore(rows: readonly RowOnGrid[], at: readonly number[], day: string): number | null {
  const before = at.filter((one) => (rows[one]?.batch?.day ?? "") <= day);
  const last = Math.max(...before.map((one) => Number(rows[one]?.batch?.day.replaceAll("-", "") ?? 0)), 0);
  const nearest = before.filter((one) => Number(rows[one]?.batch?.day.replaceAll("-", "")) === last);
  return nearest.length === 1 ? (nearest[0] ?? null) : null;
}
