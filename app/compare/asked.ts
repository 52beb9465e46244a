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
  /** which part of a long list, from 1 */
  readonly part: number;
}

type Words = Readonly<Record<string, string | undefined>>;

export function comparisonAsked(asked: Words, lastMonth: string): Asked {
  const methods = Object.keys(METHOD_WORDS) as Method[];
  return {
    month: monthAsked(asked) ?? lastMonth,
    dryer: methods.find((method) => method === asked.dryer) ?? null,
    sort: SORTS.find((sort) => sort === asked.sort) ?? "name",
    known: knownAsked(asked),
    part: /^[1-9]\d{0,3}$/.test(asked.part ?? "") ? Number(asked.part) : 1,
  };
}

/** The address of the same page with something else asked for; what changes the list begins at its first part. */
export function addressOf(asked: Asked, change: Partial<Asked> = {}): string {
  const { month, dryer, sort, known, part } = { ...asked, part: 1, ...change };
  const words = new URLSearchParams({ month });
  if (dryer !== null) words.set("dryer", dryer);
  if (sort !== "name") words.set("sort", sort);
  if (known !== undefined) words.set("known", known);
  if (part > 1) words.set("part", String(part));
  return `/compare?${words}`;
}
