import { monthInWords } from "../../_words/days";
import { knownAsked, monthAsked } from "../../sites/monthsAsked";

/** The measures in which sites that are alike are set apart, each a page of its own. */
export const SET_APART = ["dry-yield", "fuel-per-driven-off", "fresh-per-pan-hour"] as const;
type SetApart = (typeof SET_APART)[number];

/** What the address asks for. */
export interface AskedApart {
  readonly month: string;
  readonly known: string | undefined;
  readonly measure: SetApart;
  /** codes of two sites to set against each other */
  readonly two: readonly [string, string] | null;
}

type Words = Readonly<Record<string, string | undefined>>;

export function apartAsked(asked: Words, lastMonth: string): AskedApart {
  const { first = "", second = "" } = asked;
  return {
    month: monthAsked(asked) ?? lastMonth,
    known: knownAsked(asked),
    measure: SET_APART.find((measure) => measure === asked.measure) ?? "dry-yield",
    two: first !== "" && second !== "" && first !== second ? [first, second] : null,
  };
}

/** The address of the same page with something else asked for. */
export function apartAddress({ month, known, measure, two }: AskedApart): string {
  const words = new URLSearchParams({ month, ...(known === undefined ? {} : { known }) });
  if (measure !== "dry-yield") words.set("measure", measure);
  if (two !== null) {
    words.set("first", two[0]);
    words.set("second", two[1]);
  }
  return `/compare/apart?${words}`;
}

export function apartTitle({ month }: AskedApart): string {
  return `How far apart sites were, ${monthInWords(month)}`;
}
