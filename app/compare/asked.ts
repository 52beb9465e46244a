import type { Method } from "#server/terms/batch";
import { METHOD_WORDS } from "../_words/methods";
import { knownAsked, monthAsked } from "../sites/monthsAsked";

/** In which order sites stand. There is no order by a figure: a list of winners would be read into it. */
export const SORTS = ["name", "changed", "record", "dryer"] as const;
export type Sort = (typeof SORTS)[number];

export const SORT_WORDS: Record<Sort, string> = {
  name: "by name",
  changed: "changed ones first",
  record: "least complete record first",
  dryer: "by dryer and fuel",
};

/** What the address asks for: everything that makes the page is in it. */
export interface Asked {
  readonly month: string;
  readonly dryer: Method | null;
  readonly sort: Sort;
  readonly known: string | undefined;
  /** codes of two sites to set against each other */
  readonly two: readonly [string, string] | null;
}

export function comparisonAsked(asked: Readonly<Record<string, string | undefined>>, lastMonth: string): Asked {
  const methods = Object.keys(METHOD_WORDS) as Method[];
  return {
    month: monthAsked(asked) ?? lastMonth,
    dryer: methods.find((method) => method === asked.dryer) ?? null,
    sort: SORTS.find((sort) => sort === asked.sort) ?? "name",
    known: knownAsked(asked),
    two: asked.first && asked.second && asked.first !== asked.second ? [asked.first, asked.second] : null,
  };
}

/** The address of the same page with something else asked for. */
export function addressOf(asked: Asked, change: Partial<Asked> = {}): string {
  const { month, dryer, sort, known, two } = { ...asked, ...change };
  const words = new URLSearchParams({ month });
  if (dryer !== null) words.set("dryer", dryer);
  if (sort !== "name") words.set("sort", sort);
  if (known !== undefined) words.set("known", known);
  if (two !== null) {
    words.set("first", two[0]);
    words.set("second", two[1]);
  }
  return `/compare?${words}`;
}
