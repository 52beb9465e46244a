import type { Fuel } from "#server/terms/fuel";
import { isFuel } from "../columns/column";
import { readHeading } from "../columns/headingWords";

/** Reads the fuel that a word names in any language, or what the site declared when there is no word; remembers. */
export function fuelReader(declared: Fuel | undefined): (word: string | null) => Fuel | null {
  const seen = new Map<string, Fuel | null>();
  return (word) => {
    if (word === null || word.trim() === "") return declared ?? null;
    const known = seen.get(word);
    if (known !== undefined) return known;
    const fuel = fuelOfWord(word);
    if (seen.size < 5000) seen.set(word, fuel);
    return fuel;
  };
}

function fuelOfWord(word: string): Fuel | null {
  const [meaning, second] = readHeading(word)?.meanings ?? [];
  return meaning !== undefined && second === undefined && isFuel(meaning) ? meaning : null;
}
