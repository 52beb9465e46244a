import type { Cell, GridRow, Sheet } from "#server/terms/grid";
import type { Meaning } from "#server/terms/row";
import { isDigit } from "../values/decimals";
import { type Language, readHeading } from "./headingWords";
import { joinedHeadings, joinGroups, texts } from "./joinedHeadings";
import { isUnitsRow } from "./unitsRow";

/** A table inside a sheet; positions count in `sheet.rows`, `to` is the first that is no longer in it. */
export interface FoundTable {
  readonly headingAt: readonly number[];
  readonly unitsAt: number | null;
  readonly from: number;
  readonly to: number;
  /** one text per column, groups and their parts joined */
  readonly headings: readonly string[];
  readonly language: Language | null;
  /** rows that repeat the heading further down */
  readonly repeatsAt: ReadonlySet<number>;
}

interface Candidate {
  readonly at: readonly number[];
  readonly headings: readonly string[];
  readonly score: number;
}

const CORE: ReadonlySet<Meaning> = new Set(["day", "fresh", "dried"]);
const BESIDE: ReadonlySet<Meaning> = new Set([
  "batch-number",
  "harvest",
  "loads",
  "minutes",
  "fuel-amount",
  "lpg",
  "natural-gas",
  "biogas",
  "firewood",
  "charcoal",
  "other-biomass",
  "electricity",
  "kerosene",
  "diesel",
  "petrol",
  "cylinder-before",
  "cylinder-after",
  "cylinder-change",
]);
const STARTS_LIKE_A_VALUE = /^[-+~<>=(]?\s*[\d٠-٩]/;

/**
 * Every table of a sheet: a heading row names at least two things that a log records, one of them a day or a weight.
 * Where somebody said which row holds the headings (0: none does), there is one table, and it is that one; where they
 * stand in several rows, from the first of these to it.
 */
export function findTables(sheet: Sheet, said?: number, first = said): FoundTable[] {
  if (said !== undefined) return tableSaid(sheet, first ?? said, said);
  const tables: FoundTable[] = [];
  let at = 0;
  while (at < sheet.rows.length) {
    const heading = nextHeading(sheet.rows, at);
    if (heading === null) break;
    const table = tableUnder(sheet.rows, heading);
    tables.push(table);
    at = table.to;
  }
  return tables;
}

/** Nobody's headings stand in more rows than these. */
const MOST_HEADINGS = 6;

function tableSaid({ rows }: Sheet, first: number, headingRow: number): FoundTable[] {
  if (headingRow === 0)
    return [
      {
        headingAt: [],
        unitsAt: null,
        from: 0,
        to: rows.length,
        headings: [],
        language: null,
        repeatsAt: new Set(),
      },
    ];
  const from = Math.max(Math.min(first, headingRow), headingRow - MOST_HEADINGS + 1);
  const at = rows.flatMap(({ row }, place) => (row >= from && row <= headingRow ? [place] : []));
  const headings = joinedHeadings(at.map((place) => texts(rows[place] ?? null)));
  return at.length === 0 ? [] : [tableUnder(rows, { at, headings, score: 0 })];
}

/** So many rows below a first heading may still hold a better one: "Date: 30 June, Batches: 12" stands above a log. */
const PREAMBLE = 10;

function nextHeading(rows: readonly GridRow[], from: number): Candidate | null {
  for (let at = from; at < rows.length; at++) {
    const found = candidateAt(rows, at);
    if (found !== null) return betterBelow(rows, at + 1, found);
  }
  return null;
}

/** The best heading of the rows just below, as long as no row of values comes between. */
function betterBelow(rows: readonly GridRow[], from: number, first: Candidate): Candidate {
  let best = first;
  for (let at = from; at < Math.min(rows.length, from + PREAMBLE); at++) {
    const row = rows[at];
    if (row === undefined || row.cells.filter(isValue).length >= 3) return best;
    const found = candidateAt(rows, at);
    if (found !== null && found.score > best.score) best = found;
  }
  return best;
}

function isValue(cell: Cell): boolean {
  if (cell.text === "") return false;
  return cell.kind !== "text" || isDigit(cell.text.charCodeAt(0)) || STARTS_LIKE_A_VALUE.test(cell.text);
}

/** The row alone, or together with the group names above it when that tells more. */
function candidateAt(rows: readonly GridRow[], at: number): Candidate | null {
  const row = rows[at];
  if (row === undefined || !couldBeHeading(row)) return null;
  const own = texts(row);
  const alone = scored([at], own);
  const below = rows[at + 1];
  if (below === undefined || !couldBeHeading(below)) return alone;
  if (isUnitsRow(below) && !namesMore(row, below)) return alone;
  const joined = joinGroups(own, texts(below));
  const both = scored([at, at + 1], joined);
  const under = scored([at + 1], texts(below));
  if (both !== null && both.score > (alone?.score ?? 0) && both.score > (under?.score ?? 0)) return both;
  return alone;
}

function scored(at: readonly number[], headings: readonly string[]): Candidate | null {
  const meanings = new Set<Meaning>();
  let known = 0;
  for (const heading of headings) {
    const found = heading === "" ? null : readHeading(heading);
    if (found === null || found.meanings.length === 0) continue;
    known += found.why === "heading-known" ? 2 : 1;
    for (const meaning of found.meanings) meanings.add(meaning);
  }
  const core = [...meanings].filter((meaning) => CORE.has(meaning)).length;
  const beside = [...meanings].some((meaning) => BESIDE.has(meaning));
  const enough = core >= 2 || (core === 1 && beside);
  return enough ? { at, headings, score: meanings.size * 10 + known } : null;
}

/** Mostly words: rows of values begin with digits. */
function couldBeHeading(row: GridRow): boolean {
  let words = 0;
  let values = 0;
  for (let index = 0; index < row.width; index++) {
    const cell = row.at(index);
    if (cell.text === "") continue;
    if (isValue(cell)) values++;
    else words++;
    if (values * 4 > row.width) return false;
  }
  return words >= 2 && values * 3 <= words;
}

/** Units below a gap in the headings tell columns of one group apart: "kg" and "hour" below "In". */
function namesMore(row: GridRow, units: GridRow): boolean {
  const first = row.cells.findIndex(({ text }) => text.trim() !== "");
  return units.cells.some(({ text }, at) => at > first && text.trim() !== "" && row.at(at).text.trim() === "");
}

function tableUnder(rows: readonly GridRow[], heading: Candidate): FoundTable {
  const last = heading.at[heading.at.length - 1] ?? 0;
  const below = rows[last + 1];
  const unitsAt = below !== undefined && isUnitsRow(below) ? last + 1 : null;
  const from = (unitsAt ?? last) + 1;
  const repeatsAt = new Set<number>();
  const bottom = rows[last];
  let to = from;
  for (; to < rows.length; to++) {
    const row = rows[to];
    if (row === undefined || !couldBeHeading(row)) continue;
    if (sameTexts(row, bottom)) repeatsAt.add(to);
    else if (heading.at.length === 2 && sameTexts(row, rows[heading.at[0] ?? 0])) repeatsAt.add(to);
    else if (candidateAt(rows, to) !== null) break;
  }
  return {
    headingAt: heading.at,
    unitsAt,
    from,
    to,
    headings: heading.headings,
    language: spokenIn(heading.headings),
    repeatsAt,
  };
}

function sameTexts(a: GridRow, b: GridRow | undefined): boolean {
  if (b === undefined) return false;
  const width = Math.max(a.width, b.width);
  for (let index = 0; index < width; index++) {
    if (a.at(index).text.trim() !== b.at(index).text.trim()) return false;
  }
  return true;
}

/** The language that knows most of the headings. */
function spokenIn(headings: readonly string[]): Language | null {
  const votes = new Map<Language, number>();
  for (const heading of headings) {
    const found = readHeading(heading);
    for (const language of found?.languages ?? []) {
      votes.set(language, (votes.get(language) ?? 0) + (found?.why === "heading-known" ? 2 : 1));
    }
  }
  let best: Language | null = null;
  for (const [language, count] of votes) if (count > (best === null ? 0 : (votes.get(best) ?? 0))) best = language;
  return best;
}
