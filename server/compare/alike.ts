import type { Compared, Entry } from "./entry";

/** What sites must have in common to be compared in a measure. */
export interface Alike extends Pick<Entry, "method" | "fuel"> {
  readonly measure: Compared;
  readonly freshWeighed: Entry["freshWeighed"];
  readonly driedWeighed: Entry["driedWeighed"];
}

/** Which weighing moments enter a measure: weights before and after washing are of different things. */
const WEIGHED: Readonly<Record<Compared, { readonly fresh: boolean; readonly dried: boolean }>> = {
  "dry-yield": { fresh: true, dried: true },
  "fuel-per-driven-off": { fresh: true, dried: true },
  "fresh-per-pan-hour": { fresh: true, dried: false },
  "minutes-per-kg": { fresh: true, dried: false },
  "record-usable": { fresh: false, dried: false },
};

/**
 * What a site must share with others to be compared with them: dryer and main fuel, and for weights the moments of weighing.
 *
 * What nobody declared is alike with what nobody declared, and with nothing else. How complete a record is does not hang
 * on the dryer: there all sites are alike. Null where the drying method is not known.
 */
export function alikeIn(measure: Compared, entry: Entry): Alike | null {
  const nothing = { method: null, fuel: null, freshWeighed: null, driedWeighed: null };
  if (measure === "record-usable") return { measure, ...nothing };
  if (entry.method === null) return null;
  const { fresh, dried } = WEIGHED[measure];
  return {
    measure,
    method: entry.method,
    fuel: entry.fuel,
    freshWeighed: fresh ? entry.freshWeighed : null,
    driedWeighed: dried ? entry.driedWeighed : null,
  };
}

/** One text for all that are alike, the same on every machine. */
export function keyOf({ measure, method, fuel, freshWeighed, driedWeighed }: Alike): string {
  return [measure, method, fuel, freshWeighed?.when, driedWeighed?.when, driedWeighed?.sieved]
    .map((part) => part ?? "-")
    .join(" ");
}
