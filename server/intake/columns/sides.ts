import { BLANK, columnName, type GridRow, type Sheet } from "#server/terms/grid";
import { RowOfCells } from "../grid/rowOfCells";
import { FUEL_MEANINGS } from "./column";
import { findTables } from "./findTables";
import { type Group, groupsIn } from "./groups";
import { readHeading } from "./headingWords";

/** So many rows from the top may hold the headings of tables that stand side by side. */
const LOOKED_AT = 60;
/** So many places between columns are tried; more of them are no tables but a pattern. */
const MOST_CUTS = 24;

/**
 * A sheet whose tables stand side by side, or whose rows hold several loads each, as one sheet a table; any other sheet
 * alone and unchanged.
 *
 * The first part keeps the sheet's name and all its rows. Each further part is named after its columns, "Log (columns F
 * to J)", keeps rows and columns where they stand, and holds only the rows that say something there. So no cell is lost
 * or read twice (but for a day that several loads of one row share), and every place is found in the sheet as it was sent.
 */
export function sidesOf(sheet: Sheet): Sheet[] {
  const top = sheet.rows.slice(0, LOOKED_AT);
  const width = () => sheet.rows.reduce((most, row) => Math.max(most, row.width), 0);
  const cuts = cutsIn(top);
  if (cuts.length > 0) {
    const end = width();
    const from = [0, ...cuts];
    return parts(
      sheet,
      from.map((first, at) => ({ from: first, to: from[at + 1] ?? end })),
      null,
    );
  }
  const found = groupsIn(top);
  if (found === null) return [sheet];
  const [, ...others] = found.groups;
  return parts(sheet, [{ from: 0, to: width() }, ...others], found.day);
}

/** The first of the spans without what the others hold, then each of the others with the day that they share. */
function parts(sheet: Sheet, [, ...others]: readonly Group[], day: number | null): Sheet[] {
  const isIn = (at: number, { from, to }: Group) => at >= from && at < to;
  const first = sheet.rows.map((row) => keeping(row, (at) => !others.some((other) => isIn(at, other))));
  const further = others.map((own) => {
    const name = `${sheet.name} (columns ${columnName(own.from)} to ${columnName(own.to - 1)})`;
    const rows = sheet.rows.filter(({ cells }) => cells.slice(own.from, own.to).some(({ text }) => text.trim() !== ""));
    return { name, hidden: sheet.hidden, rows: rows.map((row) => keeping(row, (at) => at === day || isIn(at, own))) };
  });
  return [{ ...sheet, rows: first }, ...further];
}

/** A row with some of its cells, where they stand; nothing stands in the place of the others. */
function keeping(row: GridRow, isKept: (at: number) => boolean): GridRow {
  let width = row.width;
  while (width > 0 && !isKept(width - 1)) width--;
  const cells = Array.from({ length: width }, (_, at) => (isKept(at) ? row.at(at) : BLANK));
  return new RowOfCells(row.row, cells);
}

/** Columns at which a further table begins. */
function cutsIn(rows: readonly GridRow[]): number[] {
  const width = rows.reduce((most, row) => Math.max(most, row.width), 0);
  const cuts: number[] = [];
  let from = 0;
  for (const cut of possibleCuts(rows, width)) {
    if (cut <= from || !standsAlone(rows, from, cut, width)) continue;
    cuts.push(cut);
    from = cut;
  }
  return cuts;
}

/** After a column in which nothing stands, and where a row of headings names the day once more. */
function possibleCuts(rows: readonly GridRow[], width: number): number[] {
  const found: number[] = [];
  for (let at = 1; at < width && found.length < MOST_CUTS; at++) {
    const isGap = !isUsed(rows, at - 1) && isUsed(rows, at);
    if (
      isGap ||
      rows.some((row) => namesDay(row, at) && row.cells.slice(0, at).some((_, before) => namesDay(row, before)))
    )
      found.push(at);
  }
  return found;
}

function isUsed(rows: readonly GridRow[], index: number): boolean {
  return rows.some((row) => row.at(index).text.trim() !== "");
}

function namesDay(row: GridRow, index: number): boolean {
  const { kind, text } = row.at(index);
  if (kind !== "text" || !/^\p{L}/u.test(text)) return false;
  const read = readHeading(text);
  return read?.why === "heading-known" && read.meanings.length === 1 && read.meanings[0] === "day";
}

/** Both sides are tables that can be read without the other: loads with their days, or fuel with its days. */
function standsAlone(rows: readonly GridRow[], from: number, cut: number, width: number): boolean {
  const left = kindOf(rows, from, cut);
  const right = kindOf(rows, cut, width);
  if (left === null || right === null) return false;
  return right.hasDay ? left.hasDay : left.kind === "loads" && right.kind === "loads" && !left.hasDay;
}

interface Kind {
  readonly kind: "loads" | "fuel";
  readonly hasDay: boolean;
}

function kindOf(rows: readonly GridRow[], from: number, to: number): Kind | null {
  const side = { name: "", hidden: false, rows: rows.map((row) => keeping(row, (at) => at >= from && at < to)) };
  const meanings = new Set(
    findTables(side).flatMap(({ headings }) => headings.flatMap((heading) => readHeading(heading)?.meanings ?? [])),
  );
  const hasDay = meanings.has("day");
  if (meanings.has("fresh") && meanings.has("dried")) return { kind: "loads", hasDay };
  const isFuel =
    !meanings.has("fresh") && !meanings.has("dried") && [...meanings].some((one) => FUEL_MEANINGS.has(one));
  return isFuel && hasDay ? { kind: "fuel", hasDay } : null;
}
