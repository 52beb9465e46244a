import { isUnreadable, readGrid } from "#server/intake/grid/readGrid";
import { readSettings } from "#server/settings";
import { isDay } from "#server/terms/days";
import { WrongData } from "./command";
import { refusalInWords } from "./words";

/** One day of a series. A plain value stands over a denominator of 1. */
export interface DatedPoint {
  readonly day: string;
  readonly value: number;
  readonly numerator: number;
  readonly denominator: number;
}

/** A dated series as a file gives it, by day: plain values, or ratios of a numerator and a denominator. */
export interface DatedSeries {
  readonly kind: "value" | "ratio";
  readonly points: readonly DatedPoint[];
}

/**
 * Reads columns day, value, or day, numerator, denominator, in any order of rows and columns.
 *
 * Rows of one day are added up where they are ratios; of plain values a day has one. Throws WrongData with the row and
 * column that cannot be read, and what would be right.
 */
export function datedSeries(bytes: Uint8Array, name: string): DatedSeries {
  const grid = readGrid(bytes, name, readSettings().bounds);
  if (isUnreadable(grid)) throw new WrongData(refusalInWords(grid));
  const [heading, ...rows] = (grid.sheets[0]?.rows ?? [])
    .map(({ row, cells }) => ({ row, texts: cells.map(({ text }) => text.trim()) }))
    .filter(({ texts }) => texts.some((text) => text !== ""));
  const names = heading?.texts.map((text) => text.toLowerCase()) ?? [];
  const isRatio = names.includes("numerator") && names.includes("denominator");
  if (!names.includes("day") || !(isRatio || names.includes("value")))
    throw new WrongData("The headings are to be day, numerator, denominator; or day, value.");
  if (rows.length === 0) throw new WrongData(`${name} has headings and no row under them.`);
  const points = rows.map(({ row, texts }): DatedPoint & { readonly row: number } => {
    const text = (column: string) => texts[names.indexOf(column)] ?? "";
    const number = (column: string) => numberOf(text(column), row, column);
    const day = text("day");
    if (!isDay(day)) throw new WrongData(`Row ${row}, column day: “${day}” is not a day such as 2031-03-31.`);
    if (!isRatio) return { row, day, value: number("value"), numerator: number("value"), denominator: 1 };
    const [numerator, denominator] = [number("numerator"), number("denominator")];
    if (!(denominator > 0))
      throw new WrongData(`Row ${row}, column denominator: ${denominator} is nothing to divide by; it is more than 0.`);
    return { row, day, value: numerator / denominator, numerator, denominator };
  });
  points.sort((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : a.row - b.row));
  return { kind: isRatio ? "ratio" : "value", points: isRatio ? addedUp(points) : onePerDay(points) };
}

function numberOf(text: string, row: number, column: string): number {
  const value = Number(text);
  if (text !== "" && /^[-+.\deE]+$/.test(text) && Number.isFinite(value)) return value;
  const why = text === "" ? "is empty; leave the row out" : `is not a number such as 12.5 (“${text}”)`;
  throw new WrongData(`Row ${row}, column ${column}: ${column} ${why}.`);
}

function addedUp(sorted: readonly DatedPoint[]): DatedPoint[] {
  const days: DatedPoint[] = [];
  for (const { day, numerator, denominator } of sorted) {
    const last = days.at(-1);
    const same = last?.day === day;
    const [num, den] = same ? [last.numerator + numerator, last.denominator + denominator] : [numerator, denominator];
    if (same) days.pop();
    days.push({ day, value: num / den, numerator: num, denominator: den });
  }
  return days;
}

function onePerDay(sorted: readonly (DatedPoint & { readonly row: number })[]): DatedPoint[] {
  for (const [i, { day, row }] of sorted.entries()) {
    if (sorted[i - 1]?.day === day)
      throw new WrongData(`Row ${row}, column day: ${day} stands twice; a series of plain values has one a day.`);
  }
  return sorted.map(({ row: _row, ...point }) => point);
}
