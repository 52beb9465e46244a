import { alikeIn, keyOf, withAnyFuel } from "./alike";
import { type Claim, difference } from "./claims";
import type { Compared, Entry } from "./entry";

/** What may be said about two sites in one measure; nothing where they are not alike. */
export type Said = Claim | { readonly kind: "not-alike" };

/** The measures in which two sites can be set against each other; how complete their records are is a count, and no claim. */
export const BETWEEN = [
  "dry-yield",
  "fuel-per-driven-off",
  "fresh-per-pan-hour",
] as const satisfies readonly Compared[];
export type Between = Readonly<Record<(typeof BETWEEN)[number], Said>>;

/**
 * Sets two sites against each other, measure by measure: how much higher the first one is, and whether that may be said.
 *
 * between(a microwave, a pan of hot sand) // "not-alike" in every measure
 */
export function between(first: Entry, second: Entry): Between {
  const said = (measure: Compared): Said =>
    areAlike(measure, first, second)
      ? difference(first.measured[measure], second.measured[measure])
      : { kind: "not-alike" };
  return {
    "dry-yield": said("dry-yield"),
    "fuel-per-driven-off": said("fuel-per-driven-off"),
    "fresh-per-pan-hour": said("fresh-per-pan-hour"),
  };
}

function areAlike(measure: Compared, first: Entry, second: Entry): boolean {
  const [a, b] = [alikeIn(measure, first), alikeIn(measure, second)];
  if (a === null || b === null) return false;
  const [wideA, wideB] = [withAnyFuel(a), withAnyFuel(b)];
  return keyOf(a) === keyOf(b) || (wideA !== null && wideB !== null && keyOf(wideA) === keyOf(wideB));
}
