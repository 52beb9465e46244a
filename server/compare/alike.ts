import type { Compared, Entry } from "./entry";

/** What sites must have in common to be compared in a measure. */
export interface Alike extends Pick<Entry, "method" | "fuel"> {
  readonly measure: Compared;
  /** the fuel was left aside, since too few sites share it */
  readonly anyFuel: boolean;
  readonly freshWeighed: Entry["freshWeighed"];
  readonly driedWeighed: Entry["driedWeighed"];
}

interface Needs {
  /** which weighing moments enter the measure: weights before and after washing are of different things */
  readonly fresh: boolean;
  readonly dried: boolean;
  /** whether the fuel may be left aside where too few sites share it: what heats a pan changes no yield */
  readonly widens: boolean;
}

const NEEDS: Readonly<Record<Compared, Needs>> = {
  "dry-yield": { fresh: true, dried: true, widens: true },
  "fuel-per-driven-off": { fresh: true, dried: true, widens: false },
  "fresh-per-pan-hour": { fresh: true, dried: false, widens: true },
  "minutes-per-kg": { fresh: true, dried: false, widens: true },
  "record-usable": { fresh: false, dried: false, widens: false },
};

/**
 * What a site must share with others to be compared with them: dryer and main fuel, and for weights the moments of weighing.
 *
 * What nobody declared is alike with what nobody declared, and with nothing else. How complete a record is does not hang
 * on the dryer: there all sites are alike. Null where the drying method is not known.
 */
export function alikeIn(measure: Compared, entry: Entry): Alike | null {
  const nothing = { method: null, fuel: null, anyFuel: false, freshWeighed: null, driedWeighed: null };
  if (measure === "record-usable") return { measure, ...nothing };
  if (entry.method === null) return null;
  const { fresh, dried } = NEEDS[measure];
  return {
    measure,
    method: entry.method,
    fuel: entry.fuel,
    anyFuel: false,
    freshWeighed: fresh ? entry.freshWeighed : null,
    driedWeighed: dried ? entry.driedWeighed : null,
  };
}

/** The same with the fuel left aside; null in a measure where it may not be. */
export function withAnyFuel(alike: Alike): Alike | null {
  return NEEDS[alike.measure].widens ? { ...alike, fuel: null, anyFuel: true } : null;
}

/** One text for all that are alike, the same on every machine. */
export function keyOf({ measure, method, fuel, anyFuel, freshWeighed, driedWeighed }: Alike): string {
  return [measure, method, anyFuel ? "any" : fuel, freshWeighed?.when, driedWeighed?.when, driedWeighed?.sieved]
    .map((part) => part ?? "-")
    .join(" ");
}
