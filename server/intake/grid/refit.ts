import { fitOf, fitOfRow, type Looks, looksOf, type Profile } from "./profile";
import { type Dialect, recordsOf, type TextRecord } from "./records";

/** A record is fitted only where that makes it like the others, and clearly more so, on a scale from 0 to 1. */
const LIKE_OTHERS = 0.6;
const CLEARLY_BETTER = 0.05;
const MERGE_COST = 0.01;
const DROP_COST = 0.05;
const MOST_EXTRA = 120;
const OTHERS = [",", ";", "\t", "|", " "];

/** Looks at cells that a file may spend on fitting; after that records stay as they are, so the work is linear. */
export interface Effort {
  left: number;
}

/**
 * Cells of a record that has another width than its table, fitted to the table where that is clear from the looks of its
 * columns: written with another delimiter, an empty cell too many, or a delimiter inside a cell without quotes. Otherwise
 * the cells as they are, without empty ones beyond the table's width.
 */
export function refitted(
  record: TextRecord,
  text: string,
  dialect: Dialect,
  profile: Profile,
  effort: Effort,
): readonly string[] {
  const width = profile.columns.length;
  const cells = trimmed(record.cells, width);
  if (width < 2 || effort.left <= 0) return cells;
  let best = cells;
  let fit =
    cells.length === width ? fitOfRow(cells, profile.columns) + CLEARLY_BETTER : fitOfRow(cells, profile.columns);
  effort.left -= width;
  const consider = (other: readonly string[] | null) => {
    if (other === null) return;
    const its = fitOfRow(other, profile.columns);
    effort.left -= width;
    if (its > fit + CLEARLY_BETTER && its > LIKE_OTHERS * profile.usualFit) [best, fit] = [other, its];
  };
  consider(merged(record.cells, record.quoted, dialect.delimiter, profile, effort));
  const raw = text.slice(record.from, record.to);
  for (const delimiter of OTHERS) {
    if (delimiter === dialect.delimiter || !raw.includes(delimiter)) continue;
    const [other, ...rest] = recordsOf(raw, { ...dialect, delimiter }, 2);
    if (other === undefined || rest.length > 0) continue;
    // a record written with another delimiter has none of the usual one outside quotes
    if (other.cells.some((cell, i) => cell.includes(dialect.delimiter) && !other.quoted.includes(i))) continue;
    const itsCells = trimmed(other.cells, width);
    consider(itsCells.length === width ? itsCells : merged(other.cells, other.quoted, delimiter, profile, effort));
  }
  return best;
}

/** Widths from which on it is no accident that a line has just as many words as its table has columns. */
const NO_ACCIDENT = 5;

/** The heading right above a table, where it alone is written with another delimiter that gives just as many names. */
export function headingWithOther(
  record: TextRecord,
  text: string,
  dialect: Dialect,
  width: number,
): readonly string[] | null {
  if (width < NO_ACCIDENT || record.cells.length > width / 2) return null;
  for (const delimiter of OTHERS) {
    const [other, ...rest] = recordsOf(text.slice(record.from, record.to), { ...dialect, delimiter }, 2);
    if (other?.cells.length === width && rest.length === 0 && other.cells.every((cell) => cell.trim() !== ""))
      return other.cells;
  }
  return null;
}

function trimmed(cells: readonly string[], width: number): readonly string[] {
  let end = cells.length;
  while (end > width && cells[end - 1]!.trim() === "") end--;
  return end === cells.length ? cells : cells.slice(0, end);
}

/**
 * The best way to make fewer cells out of too many: neighbours without quotes are joined again by the delimiter, empty
 * ones dropped. Null where there are not too many, or far too many.
 */
function merged(
  cells: readonly string[],
  quoted: readonly number[],
  delimiter: string,
  profile: Profile,
  effort: Effort,
): string[] | null {
  const width = profile.columns.length;
  const extra = cells.length - width;
  if (extra < 1 || extra > MOST_EXTRA) return null;
  const inQuotes = new Set(quoted);
  const looks: Looks[][] = cells.map((_, from) => {
    const runs: Looks[] = [];
    for (let to = from; to <= Math.min(cells.length - 1, from + extra); to++) {
      if (to > from && (inQuotes.has(to) || inQuotes.has(from))) break;
      runs.push(looksOf(cells.slice(from, to + 1).join(delimiter)));
    }
    effort.left -= runs.length;
    return runs;
  });
  // best[i] and how[i]: fit and last step for the first i cells in the first j columns; a step of 0 drops a cell
  let best = new Array<number>(cells.length + 1).fill(Number.NEGATIVE_INFINITY);
  best[0] = 0;
  const steps: number[][] = [];
  for (let column = 0; column <= width; column++) {
    const next = new Array<number>(cells.length + 1).fill(Number.NEGATIVE_INFINITY);
    const how = new Array<number>(cells.length + 1).fill(0);
    if (column > 0) {
      for (let from = 0; from < cells.length; from++) {
        if (best[from] === Number.NEGATIVE_INFINITY) continue;
        for (const [more, its] of looks[from]!.entries()) {
          const fit = best[from]! + fitOf(its, profile.columns[column - 1]) - MERGE_COST * more;
          if (fit > next[from + more + 1]!) [next[from + more + 1], how[from + more + 1]] = [fit, more + 1];
        }
      }
    } else next[0] = 0;
    for (let i = 0; i < cells.length; i++) {
      if (cells[i]!.trim() === "" && next[i]! - DROP_COST > next[i + 1]!)
        [next[i + 1], how[i + 1]] = [next[i]! - DROP_COST, 0];
    }
    steps.push(how);
    best = next;
  }
  if (best[cells.length] === Number.NEGATIVE_INFINITY) return null;
  return traced(cells, delimiter, steps);
}

function traced(cells: readonly string[], delimiter: string, steps: readonly (readonly number[])[]): string[] {
  const made: string[] = [];
  let to = cells.length;
  for (let column = steps.length - 1; column > 0 || to > 0; ) {
    const step = steps[column]![to]!;
    if (step === 0) {
      to--;
      continue;
    }
    made.unshift(cells.slice(to - step, to).join(delimiter));
    to -= step;
    column--;
  }
  return made;
}
