import type { Method } from "../batch";
import type { Meaning } from "../row";

/** Units that a log writes beside its numbers. */
export const UNIT_NAMES = ["kg", "g", "lb", "t", "oz", "min", "h", "s", "kWh", "L", "m3"] as const;
export type UnitName = (typeof UNIT_NAMES)[number];

/**
 * The words of one language, as people write them in their logs.
 *
 * Accents, capitals and punctuation do not matter, nor does the order of the words of a heading.
 * To teach a new word, add it to its line; nothing else has to change.
 */
export interface LanguageWords {
  readonly language: "en" | "fr" | "es" | "pt" | "sw" | "id";
  /** headings, one line per meaning */
  readonly headings: Readonly<Record<Meaning, readonly string[]>>;
  /** headings with more than one meaning: the columns around them decide, else a person is asked */
  readonly unclear: Readonly<Record<string, readonly Meaning[]>>;
  /** headings that we know and do not read: prices, stock, sales */
  readonly notRead: readonly string[];
  /** words that say nothing in a heading */
  readonly fillers: readonly string[];
  readonly totals: readonly string[];
  /** total-like rows that are no sum: averages, balances brought forward */
  readonly averages: readonly string[];
  readonly nothingProduced: readonly string[];
  readonly ditto: readonly string[];
  /** the log says that there is no value and none will come */
  readonly missing: readonly string[];
  /** the value will come later */
  readonly toCome: readonly string[];
  /** January to December, each with its short forms */
  readonly months: readonly (readonly string[])[];
  /** Monday to Sunday, each with its short forms */
  readonly weekdays: readonly (readonly string[])[];
  readonly units: Readonly<Record<UnitName, readonly string[]>>;
  /** measures whose weight only the site can say, each with its forms: one, and many */
  readonly containers: readonly (readonly string[])[];
  /** what a fuel column says when a full cylinder was put on */
  readonly cylinder: readonly string[];
  readonly methods: Readonly<Record<Method, readonly string[]>>;
  readonly yes: readonly string[];
  readonly no: readonly string[];
  readonly pass: readonly string[];
  readonly fail: readonly string[];
}

/** A list of words as a person types it: parted by commas, over as many lines as it takes. */
export function words(list: string): readonly string[] {
  return list
    .split(",")
    .map((word) => word.trim())
    .filter((word) => word !== "");
}

/** A list of words with their forms: "seau/seaux, bassine/bassines". */
export function forms(list: string): readonly (readonly string[])[] {
  return words(list).map((word) => word.split("/"));
}
