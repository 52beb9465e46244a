/** Delimiters that people and programs use, the likeliest first; where two fit a text equally, the first is taken. */
const USUAL = [
  ",",
  ";",
  "\t",
  "|",
  "\u001f",
  "\u001e",
  "\u0001",
  "^",
  "~",
  "¦",
  "§",
  "!",
  "*",
  "#",
  "&",
  "%",
  ":",
  "=",
  " ",
];

/** Marks that also stand inside dates, times, headings and sentences. */
const DOUBTFUL = new Map([
  [" ", 0.7],
  [":", 0.6],
  ["=", 0.7],
  ["#", 0.7],
  ["&", 0.7],
  ["%", 0.7],
  ["*", 0.7],
  ["!", 0.7],
]);

/**
 * How far a delimiter is trusted; 1 is usual. One mark repeated may as well stand for empty cells, unless it never stands
 * alone; a mark of sentences needs more lines than two, and numbers, days or times beside it, to speak for it.
 */
export function trust(delimiter: string, lines: readonly string[], dividesValues: boolean): number {
  const few = lines.length < 3;
  const doubtful = DOUBTFUL.get(delimiter);
  if (doubtful !== undefined) return doubtful ** (few || !dividesValues ? 3 : 1);
  if (delimiter.length === 1) return 1;
  if (new Set(delimiter).size > 1) return 0.95;
  const mark = delimiter[0]!;
  return !few && lines.every((line) => !line.replaceAll(delimiter, "").includes(mark)) ? 1.2 : 0.75;
}

const MARKS = /[ ,;\t|:~^=#*!@<>¦§&\u0001\u001e\u001f]{2,5}/g;
const MOST_RUNS = 6;

/** Delimiters that could divide these lines: single characters that occur, then runs of marks that many lines share. */
export function possibleDelimiters(lines: readonly string[]): string[] {
  const single = USUAL.filter((mark) => lines.some((line) => line.includes(mark)));
  const shared = new Map<string, number>();
  for (const line of lines) {
    const runs = new Set<string>();
    for (const found of line.slice(0, 4000).matchAll(MARKS)) for (const run of partsOf(found[0])) runs.add(run);
    for (const run of runs) shared.set(run, (shared.get(run) ?? 0) + 1);
  }
  const runs = [...shared]
    .filter(([run, count]) => count >= lines.length * 0.5 && run.trim() !== "")
    .sort((a, b) => b[1] - a[1] || b[0].length - a[0].length)
    .slice(0, MOST_RUNS)
    .map(([run]) => run);
  return [...single, ...runs];
}

/** A run of marks and its beginnings: in ", $" the delimiter is ", ". */
function partsOf(run: string): string[] {
  const parts: string[] = [];
  for (let length = 2; length <= run.length; length++) parts.push(run.slice(0, length));
  return parts;
}
