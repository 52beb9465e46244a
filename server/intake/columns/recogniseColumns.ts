import { columnName, type GridRow } from "#server/terms/grid";
import type { Hints, Meaning } from "#server/terms/row";
import { unitOf } from "../values/masses";
import { type Column, NEEDED } from "./column";
import { columnUnit } from "./columnUnits";
import { decimalMarks } from "./decimalMarks";
import type { FoundTable } from "./findTables";
import { headingUnit, readHeading } from "./headingWords";
import { isUsed, looksLike } from "./looks";
import { settleDoubles, settleUnclear } from "./settle";

/** A column as its heading alone tells it. */
export interface Draft {
  readonly index: number;
  readonly heading: string;
  readonly meaning: Meaning | null;
  readonly candidates: readonly Meaning[];
  readonly sure: Column["sure"];
  readonly why: string;
  readonly headingUnit: string | null;
  /** what a row of units below the heading says */
  readonly rowUnit: string | null;
}

/** What every column of a table means, in which unit, with which decimal mark, and why. */
export function recogniseColumns(sheet: string, table: FoundTable, all: readonly GridRow[], hints: Hints): Column[] {
  const rows = all.slice(table.from, table.to);
  const width = rows.reduce((most, row) => Math.max(most, row.width), table.headings.length);
  const unitsRow = table.unitsAt === null ? undefined : all[table.unitsAt];
  const drafts = Array.from({ length: Math.min(width, 2000) }, (_, index) =>
    draft(sheet, table, rows, unitsRow, index, hints),
  );
  const settled = settleDoubles(settleUnclear(withDay(drafts, rows), rows), rows);
  const marks = decimalMarks(settled, rows, hints);
  return settled.map((found, at) => {
    const place = `${sheet}!${columnName(found.index)}`;
    const unit = columnUnit(found, rows, hints, hints.answers?.units?.[place]);
    return {
      column: columnName(found.index),
      index: found.index,
      heading: found.heading,
      meaning: found.meaning,
      candidates: found.candidates,
      sure: found.sure,
      why: found.why,
      ...unit,
      decimalMark: marks[at] ?? null,
    };
  });
}

function draft(
  sheet: string,
  table: FoundTable,
  rows: readonly GridRow[],
  unitsRow: GridRow | undefined,
  index: number,
  hints: Hints,
): Draft {
  const heading = table.headings[index] ?? "";
  const read = readHeading(heading, table.language);
  const rowUnit = unitsRow === undefined ? null : unitOf(unitsRow.at(index).text);
  const empty = {
    index,
    heading,
    headingUnit: read === null ? headingUnit(heading) : read.unit,
    rowUnit,
    candidates: [],
  };
  const answer = hints.answers?.meanings?.[`${sheet}!${columnName(index)}`];
  if (answer === "ignore") return { ...empty, meaning: null, sure: "sure", why: "answered" };
  if (answer !== undefined) return { ...empty, meaning: answer, sure: "sure", why: "answered" };
  if (read === null)
    return { ...empty, meaning: null, sure: "likely", why: heading === "" ? "no-heading" : "heading-unknown" };
  if (read.meanings.length === 0) return { ...empty, meaning: null, sure: "sure", why: "heading-not-read" };
  const [meaning] = read.meanings;
  if (read.meanings.length > 1 || meaning === undefined) {
    return { ...empty, meaning: null, candidates: read.meanings, sure: "asked", why: "heading-unclear" };
  }
  const sure = read.why === "heading-known" ? "sure" : "likely";
  return byValues({ ...empty, meaning, sure, why: read.why }, rows);
}

/** Where the cells plainly say something else than the heading: "In" over clock times, "Fuel" over weights. */
function byValues(found: Draft, rows: readonly GridRow[]): Draft {
  if (found.meaning === "fresh" || found.meaning === "dried") {
    const isTime = found.headingUnit === null || found.headingUnit === "h";
    if (!isTime || !looksLike(rows, found.index, "times")) return found;
    return {
      ...found,
      meaning: found.meaning === "fresh" ? "start" : "end",
      sure: "likely",
      why: "values-look-like-times",
    };
  }
  if ((found.meaning === "start" || found.meaning === "end") && found.headingUnit === "min" && found.sure === "likely")
    return looksLike(rows, found.index, "times") ? found : { ...found, meaning: "minutes" };
  if (found.meaning === "loads") {
    if (found.headingUnit !== null || looksLike(rows, found.index, "numbers") || !isUsed(rows, found.index))
      return found;
    return { ...found, meaning: "batch-number", sure: "likely", why: "values-look-like-names" };
  }
  if (found.meaning === "fuel-type") {
    if (found.headingUnit === null && !looksLike(rows, found.index, "numbers")) return found;
    return { ...found, meaning: "fuel-amount", sure: "likely", why: "values-look-like-numbers" };
  }
  return found;
}

/** A table without a day column takes the first column without a heading whose cells are dates. */
function withDay(drafts: readonly Draft[], rows: readonly GridRow[]): readonly Draft[] {
  if (drafts.some((found) => found.meaning === "day" || found.candidates.includes("day"))) return drafts;
  const dates = drafts.find(
    (found) => found.meaning === null && found.why === "no-heading" && looksLike(rows, found.index, "dates"),
  );
  if (dates === undefined) return drafts;
  return drafts.map((found) =>
    found === dates ? { ...found, meaning: "day", sure: "likely", why: "values-look-like-dates" } : found,
  );
}

/** Columns that the reading of a row cannot do without, as far as the table has them. */
export function holdsRows(column: Column, columns: readonly Column[]): boolean {
  if (column.sure !== "asked") return false;
  return column.candidates.some(
    (meaning) => NEEDED.has(meaning) && !columns.some((other) => other.meaning === meaning),
  );
}
