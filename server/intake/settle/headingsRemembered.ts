import { plain } from "#server/terms/headings/plain";
import type { Answers, RowRead, TableRead } from "#server/terms/row";
import { joinedHeadings } from "../columns/joinedHeadings";
import type { KnownLayout } from "./layout";
import { headed } from "./sameColumns";

/** Headings stand above; further down nobody points at them. */
const FIRST_ROWS = 60;
/** A row is the heading row of then when so many of its headings, and at least two, stand there again. */
const ALIKE = 0.5;
const FEWEST = 2;

/**
 * Where the headings of a sheet stand in which no table was found, when somebody pointed at the same headings in an
 * earlier log of the site; the latest such log counts. Null where no sheet has them.
 */
export function headingsRemembered(
  rows: readonly RowRead[],
  known: readonly KnownLayout[],
): { readonly layout: KnownLayout; readonly answers: Answers } | null {
  const sheets = lostSheets(rows);
  if (sheets.size === 0) return null;
  for (const layout of known) {
    const headings: Record<string, number> = {};
    const headingsFrom: Record<string, number> = {};
    for (const [sheet, texts] of sheets) {
      for (const table of layout.tables) {
        const below = rowsOfHeadings(table, layout.answers);
        const last = below === null ? null : placeOf(texts, table, below);
        if (below === null || last === null) continue;
        headings[sheet] = last;
        if (below > 0) headingsFrom[sheet] = last - below;
      }
    }
    if (Object.keys(headings).length === 0) continue;
    return { layout, answers: { headings, ...(Object.keys(headingsFrom).length === 0 ? {} : { headingsFrom }) } };
  }
  return null;
}

/** The first rows of each sheet without a table, by their number: texts in the order of the columns. */
function lostSheets(rows: readonly RowRead[]): Map<string, Map<number, string[]>> {
  const sheets = new Map<string, Map<number, string[]>>();
  for (const { sheet, row, reasons, sealed } of rows) {
    if (!reasons.some(({ code }) => code === "no-table-in-sheet")) continue;
    const own = sheets.get(sheet) ?? new Map<number, string[]>();
    sheets.set(sheet, own);
    if (own.size >= FIRST_ROWS) continue;
    const texts: string[] = [];
    for (const { column, text } of sealed) texts[indexOf(column)] = text;
    own.set(
      row,
      Array.from(texts, (text) => text ?? ""),
    );
  }
  return sheets;
}

/** How many rows of headings stood above the last, where somebody had pointed at them; null where nobody had. */
function rowsOfHeadings({ sheet }: TableRead, answers: Answers | null): number | null {
  const said = <T>(all: Readonly<Record<string, T>> | undefined) =>
    all !== undefined && Object.hasOwn(all, sheet) ? all[sheet] : undefined;
  const last = said(answers?.headings);
  if (last === undefined || last === 0) return null;
  return last - (said(answers?.headingsFrom) ?? last);
}

/** The last of the rows in which the headings of a table stand again. */
function placeOf(texts: ReadonlyMap<number, string[]>, table: TableRead, below: number): number | null {
  const wanted = headed(table).map(({ heading }) => plain(heading));
  for (const first of texts.keys()) {
    const span = Array.from({ length: below + 1 }, (_, at) => texts.get(first + at) ?? []);
    const here = new Set(joinedHeadings(span).map(plain));
    const again = wanted.filter((heading) => here.has(heading)).length;
    if (again >= FEWEST && again / Math.max(wanted.length, 1) >= ALIKE) return first + below;
  }
  return null;
}

/** "A" is 0, "AB" 27. */
function indexOf(column: string): number {
  return [...column].reduce((place, letter) => place * 26 + letter.charCodeAt(0) - 64, 0) - 1;
}
