import type { Segment, TextRecord } from "./records";

const FEWEST_LINES = 3;
const LONGEST_LINE = 2000;

/**
 * Columns of lines whose cells stand under each other, told from the places where (nearly) no line has a mark.
 *
 * Only lines with two spaces side by side in their middle are asked; null when fewer than three fifths of the lines are
 * such, or fewer than two columns come out. Gaps of one space count only where many lines agree on them.
 */
export function alignedColumns(lines: readonly string[]): Segment[] | null {
  const asked = lines.filter((line) => /\S {2,}\S/.test(line.slice(0, LONGEST_LINE)) && !line.includes("\t"));
  if (asked.length < FEWEST_LINES || asked.length < lines.length * 0.6) return null;
  const longest = Math.min(LONGEST_LINE, Math.max(...asked.map((line) => line.trimEnd().length)));
  const marks = new Array<number>(longest).fill(0);
  for (const line of asked) {
    for (let i = 0; i < Math.min(line.length, longest); i++) if (line[i] !== " ") marks[i]!++;
  }
  const tolerated = Math.floor(asked.length * 0.02);
  const narrowest = asked.length >= 8 ? 1 : 2;
  const segments: { from: number; to: number }[] = [];
  for (let i = 0; i < longest; i++) {
    if (marks[i]! <= tolerated) continue;
    const last = segments.at(-1);
    if (last !== undefined && i - last.to < narrowest) last.to = i + 1;
    else if (last !== undefined && i === last.to) last.to = i + 1;
    else segments.push({ from: i, to: i + 1 });
  }
  const divided = segments.flatMap((segment) => dividedWhereMostPart(segment, asked, marks));
  return divided.length < 2 ? null : divided;
}

/** No columns at all, where cells stand apart by runs of spaces without standing under each other; null where none do. */
export function runsOfSpaces(lines: readonly string[]): Segment[] | null {
  return lines.some((line) => /\S {2,}\S/.test(line.slice(0, LONGEST_LINE))) ? [] : null;
}

/** A segment in which most lines have two spaces side by side is two columns that a few lines write into each other. */
function dividedWhereMostPart(segment: Segment, lines: readonly string[], marks: readonly number[]): Segment[] {
  const within = lines.map((line) => line.slice(segment.from, segment.to)).filter((part) => part.trim() !== "");
  const parted = within.filter((part) => /\S {2,}\S/.test(part));
  if (parted.length < within.length * 0.6) return [segment];
  let at = -1;
  for (let i = segment.from + 1; i < segment.to - 1; i++) if (at === -1 || marks[i]! < marks[at]!) at = i;
  if (at === -1 || marks[at]! > lines.length * 0.4) return [segment];
  return [{ from: segment.from, to: at }, ...dividedWhereMostPart({ from: at + 1, to: segment.to }, lines, marks)];
}

/** Records of an aligned text, one a line: each word goes to the column that it overlaps most; without columns each is a cell. */
export function alignedRecords(text: string, columns: readonly Segment[]): TextRecord[] {
  const records: TextRecord[] = [];
  eachAlignedRecord(text, columns, (record) => records.push(record) > 0);
  return records;
}

export function eachAlignedRecord(
  text: string,
  columns: readonly Segment[],
  take: (record: TextRecord) => boolean,
): void {
  let from = 0;
  while (from < text.length) {
    let to = from;
    while (to < text.length && text.charCodeAt(to) !== 10 && text.charCodeAt(to) !== 13) to++;
    if (!take({ cells: cellsOf(text.slice(from, to), columns), quoted: [], from, to })) return;
    from = text.charCodeAt(to) === 13 && text.charCodeAt(to + 1) === 10 ? to + 2 : to + 1;
  }
}

function cellsOf(line: string, columns: readonly Segment[]): string[] {
  if (line.trim() === "") return [""];
  if (columns.length === 0) return line.trim().split(/\s+/);
  const spans: ({ from: number; to: number } | null)[] = columns.map(() => null);
  let column = 0;
  for (const word of line.matchAll(/\S+/g)) {
    const from = word.index;
    const to = from + word[0].length;
    while (column + 1 < columns.length && overlap(from, to, columns[column + 1]!) > overlap(from, to, columns[column]!))
      column++;
    const span = spans[column];
    if (span) span.to = to;
    else spans[column] = { from, to };
  }
  return spans.map((span) => (span === null ? "" : line.slice(span.from, span.to)));
}

/** Characters that a word shares with a column; negative: how far it stands away. */
function overlap(from: number, to: number, column: Segment): number {
  return Math.min(to, column.to) - Math.max(from, column.from);
}
