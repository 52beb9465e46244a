import type { Meaning } from "./row";

/** Answers given to questions: they win over everything that would be worked out. */
export interface Answers {
  readonly dayOrder?: "dmy" | "mdy" | "ymd";
  readonly decimalMark?: "." | ",";
  /** the day of all loads of a sheet without a column for it, keyed by the sheet */
  readonly days?: Readonly<Record<string, string>>;
  /** clock times count from midnight, or from dawn at six as in Swahili and Amharic */
  readonly clock?: "midnight" | "dawn";
  /** years are of the common era, or of the Buddhist one, which runs 543 ahead */
  readonly years?: "common" | "buddhist";
  /** loads whose dried weight was weighed together: for each, the row that has it, then the others, as "sheet!row" */
  readonly together?: readonly (readonly string[])[];
  /** keyed "sheet!column" */
  readonly meanings?: Readonly<Record<string, Meaning | "ignore">>;
  /** keyed "sheet!column" */
  readonly units?: Readonly<Record<string, string>>;
  /** what to put in place of a cell: keyed "sheet!column+row", such as "June!C14" */
  readonly cells?: Readonly<Record<string, string>>;
  /** what rows are that may be a batch of an earlier log: "new", "instead" of its loads, or a batch's id; keyed "sheet!row" */
  readonly are?: Readonly<Record<string, string>>;
  /** rows that a person set aside: "sheet!row" */
  readonly setAside?: readonly string[];
  /** what is accepted as it is written, a cell ("June!C14") or a row ("June!14"): no doubt about it holds the row */
  readonly asWritten?: readonly string[];
  /** what a person said to a fault, keyed "code sheet!first row"; "put-right" once what a yes changes is among the answers */
  readonly faults?: Readonly<Record<string, "yes" | "no" | "put-right">>;
  /** tables that are not to be read: "sheet!heading row" */
  readonly leftOut?: readonly string[];
  /** the row of a sheet that holds the headings of its table; 0 where it has none */
  readonly headings?: Readonly<Record<string, number>>;
  /** where headings stand in several rows, the first of them; `headings` has the last */
  readonly headingsFrom?: Readonly<Record<string, number>>;
  /** true: read without what earlier logs of the site have settled */
  readonly alone?: boolean;
}

/** Answers that no person gave to this log: an earlier log of the site, with the same columns, settled them. */
export interface Remembered {
  readonly file: string;
  /** the month of that log, "YYYY-MM"; null where it had none */
  readonly month: string | null;
  readonly answers: Answers;
}

/**
 * What a person says to a log: answers, and beside them what is to be done with all rows of one doubt, which is turned
 * into an answer for each of them before the log is read for good.
 */
export interface Said extends Answers {
  /** keyed "code sheet!column": the place of a choice ("0"), "as-written", or "aside"; of faults "code sheet": "yes" or "no" */
  readonly alike?: Readonly<Record<string, string>>;
}

/** Answers laid over those given before: of one place the later one stands, lists grow. */
export function laidOver<A extends Said, B extends Said>(before: A | null, later: B | null): A & B;
export function laidOver(before: Said | null, later: Said | null): Said {
  return allLaidOver([before, later]);
}

/** The same for many, each laid over those before it. */
export function allLaidOver<A extends Said>(all: readonly (A | null)[]): A;
export function allLaidOver(all: readonly (Said | null)[]): Said {
  const lists = new Map<string, Map<string, unknown>>();
  const whole: Record<string, unknown> = {};
  for (const one of all) {
    for (const [kind, said] of Object.entries(one ?? {})) {
      if (Array.isArray(said)) {
        const list = lists.get(kind) ?? new Map<string, unknown>();
        lists.set(kind, list);
        for (const item of said) list.set(JSON.stringify(item), item);
        whole[kind] = null; // its place among the kinds
      } else if (typeof said === "object" && said !== null) whole[kind] = Object.assign(whole[kind] ?? {}, said);
      else if (said !== undefined) whole[kind] = said;
    }
  }
  for (const [kind, list] of lists) whole[kind] = [...list.values()];
  return whole;
}

/** What of some answers is not among others, or is answered differently there. */
export function answersBeyond(all: Said, others: Said): Said {
  const rest: Record<string, unknown> = {};
  for (const [kind, said] of Object.entries(all)) {
    const other = Object.entries(others).find(([name]) => name === kind)?.[1];
    const left = beyond(said, other);
    if (left !== undefined) rest[kind] = left;
  }
  return rest;
}

function beyond(said: unknown, other: unknown): unknown {
  if (Array.isArray(said)) {
    const known = new Set((Array.isArray(other) ? other : []).map((one) => JSON.stringify(one)));
    const left = said.filter((one) => !known.has(JSON.stringify(one)));
    return left.length === 0 ? undefined : left;
  }
  if (typeof said === "object" && said !== null) {
    const known = new Map(Object.entries(typeof other === "object" && other !== null ? other : {}));
    const left = Object.entries(said).filter(([place, put]) => known.get(place) !== put);
    return left.length === 0 ? undefined : Object.fromEntries(left);
  }
  return said === other ? undefined : said;
}

/** True when nothing was answered. */
export function saysNothing(answers: Said): boolean {
  return Object.values(answers).every(
    (said) => said === undefined || (typeof said === "object" && said !== null && Object.keys(said).length === 0),
  );
}
