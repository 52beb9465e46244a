import { countRecords, cutAfter } from "#server/intake/grid/cutRecords";
import { dialectOf } from "#server/intake/grid/dialect";
import { recognise } from "#server/intake/grid/recognise";
import type { Dialect } from "#server/intake/grid/records";
import { RepeatsAcross } from "#server/intake/rows/repeatsAcross";
import type { Bounds, Hints, Reading, RowRead, TotalCheck, Unreadable } from "#server/terms/row";
import type { SoFar } from "#server/terms/soFar";
import { readBytes } from "./readBytes";
import type { Source } from "./source";

/** Rows that are read, planned and stored at once of a file that is too large to be read whole. */
const ROWS_A_PART = 2_000;
const SAMPLE_BYTES = 64 * 2 ** 10;

/** How a large file is taken apart; kept with it, so that it is read again just so. */
export interface PartsPlan {
  readonly rows: number;
  /** records before the first row: they stand before every part */
  readonly headRows: number;
  readonly headBytes: number;
  /** columns of which one differs where a part begins, where that is possible */
  readonly kept: readonly number[];
}

/** A part of a file, read; its rows carry the places that they have in the whole file. */
export interface PartRead {
  readonly reading: Reading;
  /** bytes of the file up to its end */
  readonly upTo: number;
}

/**
 * How to read a file in parts, from its first rows: where its table begins, and what its columns, dates and decimals
 * mean. Later rows are read just so; where one contradicts, it is held. Only delimited text with one table can be.
 */
export async function planParts(
  source: Source,
  hints: Hints,
  bounds: Bounds,
): Promise<{ readonly plan: PartsPlan; readonly hints: Hints } | Unreadable> {
  const rows = Math.min(ROWS_A_PART, Math.floor(bounds.rows / 2));
  for await (const { bytes } of cuts(source, { rows, headRows: 0, headBytes: 0, kept: [] }, bounds)) {
    if (recognise(bytes) !== "text" || bytes.includes(0)) break;
    const reading = await readBytes({ bytes, hints, bounds });
    if ("refused" in reading) return reading;
    const [table, another] = reading.tables;
    if (table === undefined || another !== undefined) break;
    const isHead = (row: RowRead) => row.reasons.some(({ code }) => HEAD.includes(code));
    const first = reading.rows.findIndex((row) => row.row > table.headingRow && !isHead(row));
    const headRows = (reading.rows[first]?.row ?? 1) - 1;
    const text = latin1(bytes);
    const head = cutAfter(text, dialectOf(text.slice(0, SAMPLE_BYTES)), headRows, [], 0);
    const places = table.columns.flatMap(({ meaning, column }) =>
      meaning === "day" || meaning === "site" ? [placeOf(column)] : [],
    );
    return { plan: { rows, headRows, headBytes: head?.at ?? 0, kept: places }, hints: understood(hints, reading) };
  }
  return { refused: "too-large", detail: `${source.size} > ${bounds.bytes}` };
}

const HEAD: readonly string[] = ["heading-row", "units-row", "before-the-table", "blank-row"];

/** What the first rows settled, as answers for all others. */
function understood(hints: Hints, { tables }: Reading): Hints {
  const [table] = tables;
  const marks = new Set(table?.columns.flatMap(({ decimalMark }) => decimalMark ?? []));
  const [mark] = marks;
  const meanings = table?.columns.flatMap(({ column, meaning, sure }) =>
    meaning === null || sure === "asked" ? [] : [[`${table.sheet}!${column}`, meaning] as const],
  );
  return {
    ...hints,
    ...(table?.dayOrder == null ? {} : { dayOrder: table.dayOrder }),
    ...(mark === undefined || marks.size > 1 ? {} : { decimalMark: mark }),
    answers: { ...hints.answers, meanings: { ...Object.fromEntries(meanings ?? []), ...hints.answers?.meanings } },
  };
}

/**
 * The parts of a file in their order, read on the reading thread, from one of them on; those before are read all the
 * same, for what they leave: days that hold further down, sums, and rows that come again. Ends with a refusal where one
 * cannot be read.
 */
export async function* readParts(
  source: Source,
  plan: PartsPlan,
  hints: Hints,
  bounds: Bounds,
  from = 0,
): AsyncGenerator<PartRead | Unreadable> {
  let part = 0;
  let before: SoFar | null = null;
  const repeats = new RepeatsAcross();
  for await (const { bytes, recordsBefore, upTo } of cuts(source, plan, bounds)) {
    const reading: Reading | Unreadable = await readBytes({ bytes, hints, bounds, before });
    if ("refused" in reading) return yield reading;
    before = reading.soFar ?? before;
    const isFirst = recordsBefore === 0;
    const by = isFirst ? 0 : recordsBefore - plan.headRows;
    const own = isFirst ? reading.rows : reading.rows.filter(({ row }) => row > plan.headRows);
    const rows = repeats.of(own.map((row) => moved(row, by)));
    const totals = reading.totals.map((total) => totalMoved(total, by));
    if (part++ >= from) yield { reading: { ...reading, rows, totals }, upTo };
  }
}

/** All rows of a file that is read in parts, for looking at it again. */
export async function readWhole(
  source: Source,
  plan: PartsPlan,
  hints: Hints,
  bounds: Bounds,
): Promise<{ readonly rows: readonly RowRead[] } | Unreadable> {
  const rows: RowRead[] = [];
  for await (const part of readParts(source, plan, hints, bounds)) {
    if ("refused" in part) return part;
    for (const row of part.reading.rows) rows.push(row);
  }
  return { rows };
}

interface Bytes {
  /** head and own records, as they stand in the file */
  readonly bytes: Uint8Array;
  readonly recordsBefore: number;
  readonly upTo: number;
}

/**
 * Cuts a file between records. Characters of delimited text in any encoding that agrees with ASCII are looked at byte
 * by byte: no part of another character looks like a line's end, a quote or a separator.
 */
async function* cuts(source: Source, plan: PartsPlan, { cellCharacters }: Bounds): AsyncGenerator<Bytes> {
  let rest: Buffer = Buffer.alloc(0);
  let head: Buffer | null = null;
  let dialect: Dialect | null = null;
  let recordsBefore = 0;
  let upTo = 0;
  const reach = 4 * cellCharacters;
  const take = (size: number, records: number): Bytes => {
    const own = rest.subarray(0, size);
    head ??= own.subarray(0, plan.headBytes);
    const bytes = recordsBefore === 0 ? own : Buffer.concat([head, own]);
    const part = { bytes, recordsBefore, upTo: upTo + size };
    rest = rest.subarray(size);
    recordsBefore += records;
    upTo += size;
    return part;
  };
  for await (const piece of source.pieces()) {
    rest = Buffer.concat([rest, piece]);
    for (;;) {
      if (rest.length < SAMPLE_BYTES + reach) break;
      const text = latin1(rest);
      dialect ??= dialectOf(text.slice(0, SAMPLE_BYTES));
      const cut = cutAfter(text, dialect, plan.rows, plan.kept, reach);
      if (cut === null) break;
      yield take(cut.at, cut.records);
    }
  }
  while (rest.length > 0) {
    const text = latin1(rest);
    dialect ??= dialectOf(text.slice(0, SAMPLE_BYTES));
    const cut = cutAfter(text, dialect, plan.rows, plan.kept, 0);
    yield take(cut?.at ?? rest.length, cut?.records ?? countRecords(text, dialect));
  }
}

function latin1(bytes: Uint8Array): string {
  return Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).toString("latin1");
}

function moved(row: RowRead, by: number): RowRead {
  if (by === 0) return row;
  return {
    ...row,
    row: row.row + by,
    reasons: row.reasons.map((reason) => ({ ...reason, at: { ...reason.at, row: reason.at.row + by } })),
    ...(row.countsWith === undefined ? {} : { countsWith: { ...row.countsWith, row: row.countsWith.row + by } }),
  };
}

function totalMoved(total: TotalCheck, by: number): TotalCheck {
  return { ...total, at: { ...total.at, row: total.at.row + by } };
}

/** "A" is 0, "AB" 27. */
function placeOf(column: string): number {
  return [...column].reduce((place, letter) => place * 26 + letter.charCodeAt(0) - 64, 0) - 1;
}
