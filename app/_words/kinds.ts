import { CAN_STAND, holds, type Problem, type ProblemCode } from "#server/terms/problem";
import type { Meaning, RowRead } from "#server/terms/row";
import { choiceInWords, standsInWords, type Usual } from "./choices";
import { counted } from "./days";
import { MEANING_WORDS } from "./meanings";

/** Rows that one and the same doubt holds, and nothing else: they can be settled together. */
export interface Kind {
  /** as answers name it: "unit-slip-suspected log!D" */
  readonly key: string;
  readonly code: ProblemCode;
  readonly meaning: Meaning | null;
  readonly rows: readonly Doubted[];
}

interface Doubted {
  readonly row: RowRead;
  readonly reason: Problem;
}

const FEWEST = 3;

/** The kinds of doubt that hold at least three rows each, those with the most rows first. */
export function kindsOf(rows: readonly RowRead[]): Kind[] {
  const kinds = new Map<string, Kind & { readonly rows: Doubted[] }>();
  for (const row of rows) {
    for (const reason of row.reasons.filter(({ code }) => holds(code))) {
      const { code, at } = reason;
      const key = `${code} ${at.sheet}!${at.column ?? ""}`;
      const known = kinds.get(key);
      if (known !== undefined) known.rows.push({ row, reason });
      else {
        const meaning = row.cells.find(({ column }) => column === at.column)?.meaning ?? null;
        kinds.set(key, { key, code, meaning, rows: [{ row, reason }] });
      }
    }
  }
  return [...kinds.values()].filter((kind) => kind.rows.length >= FEWEST).sort((a, b) => b.rows.length - a.rows.length);
}

const HEADS: Readonly<Partial<Record<ProblemCode, string>>> = {
  "unit-slip-suspected": "would fit in another unit",
  "out-more-than-in": "gave more than went in",
  "mass-not-a-number": "have a weight that cannot be read",
  "mass-decimal-unclear": "have a weight whose decimals are not clear",
  "mass-unit-unknown": "have a weight without a unit",
  "dried-is-zero": "have a dried weight of zero",
  "minutes-unclear": "have a time that can mean two things",
  "minutes-not-a-number": "have a time that cannot be read",
  "end-before-start": "end before they start",
  "day-missing": "have no date",
  "day-not-a-date": "have a date that cannot be read",
  "day-outside-period": "lie far from the month of this log",
  "container-without-weight": "are written in containers",
  "nothing-to-count": "have a date and nothing else to count",
  "row-too-wide": "have more cells than headings",
};

/** What a kind of doubt is, over all its rows. */
export function kindInWords({ code, meaning, rows }: Kind): string {
  const what = meaning === null ? "" : `, by ${MEANING_WORDS[meaning]}`;
  return `${counted(rows.length, "row")} ${HEADS[code] ?? "have the same doubt"}${what}`;
}

/** What may be done with all rows of a kind: its choices, with the first row as the example; that they stand; or away. */
export function settlingsOfKind({ code, meaning, rows }: Kind, usual: Usual): { how: string; says: string }[] {
  const [first] = rows;
  if (first === undefined) return [];
  const fewest = Math.min(...rows.map(({ reason }) => reason.choices?.length ?? 0));
  const choices = (first.reason.choices ?? []).slice(0, fewest).map((choice, at) => ({
    how: String(at),
    says:
      choice.with === undefined
        ? `All in this way: “${first.reason.text}” in row ${first.row.row} becomes ${choiceInWords(choice, meaning, usual)}`
        : "In all of them the two weights were exchanged",
  }));
  const stands =
    CAN_STAND.has(code) && (code !== "container-without-weight" || meaning === "fresh" || meaning === "dried");
  return [
    ...choices,
    ...(stands
      ? [
          {
            how: "as-written",
            says: `All of them: ${standsInWords([{ code, text: "" }])
              .replace(/^It stands/, "they stand")
              .replace("counts so", "count so")}`,
          },
        ]
      : []),
    { how: "aside", says: "None of them is a batch: set them all aside" },
  ];
}
