import type { GridRow } from "#server/terms/grid";
import type { Meaning } from "#server/terms/row";
import { readDay } from "../values/days";
import { unitOf } from "../values/masses";
import { CYLINDERS, FUEL_MEANINGS, MASSES, NEEDED } from "./column";
import { countsUp, isUsed, looksLike } from "./looks";
import type { Draft } from "./recogniseColumns";

const MASS_UNITS: ReadonlySet<string> = new Set(["kg", "g", "lb", "t", "oz"]);
const MANY: ReadonlySet<Meaning> = new Set<Meaning>([
  ...FUEL_MEANINGS,
  "remarks",
  "operator",
  "labour",
  "temperature",
  "cylinder-change",
]);

/** Decides headings of several meanings by their unit and by what the other columns already say; else leaves them asked. */
export function settleUnclear(drafts: readonly Draft[], rows: readonly GridRow[]): readonly Draft[] {
  const taken = new Set(drafts.map((draft) => draft.meaning));
  return drafts.map((draft) => {
    if (draft.sure !== "asked") return draft;
    const around = decided(draft, taken);
    const meaning = around ?? byValues(draft, taken, rows);
    if (meaning === null) return draft;
    taken.add(meaning);
    return { ...draft, meaning, candidates: [], sure: "likely", why: around === null ? "values" : "columns-around" };
  });
}

function decided(draft: Draft, taken: ReadonlySet<Meaning | null>): Meaning | null {
  const open = draft.candidates.filter(
    (meaning) => !taken.has(meaning) && !(meaning === "minutes" && taken.has("start") && taken.has("end")),
  );
  const unit = draft.headingUnit ?? draft.rowUnit;
  const fitting = open.filter((meaning) => {
    if (unit === null) return !(meaning === "fresh" && draft.candidates.includes("batch-number"));
    if (MASS_UNITS.has(unit)) return MASSES.has(meaning) || FUEL_MEANINGS.has(meaning) || CYLINDERS.has(meaning);
    if (unit === "min" || unit === "h") return meaning === "minutes" || meaning === "labour";
    return true;
  });
  const both = taken.has("fresh") && taken.has("dried");
  const [only, second] = fitting;
  if (only === undefined) return null;
  if (second === undefined) return unit !== null || draft.candidates.length > open.length ? only : null;
  return both && only === "batch-number" && second === "packed" ? only : null;
}

/** Numbers that count the rows name them; plain numbers of what may be minutes or a clock time are minutes. */
function byValues(draft: Draft, taken: ReadonlySet<Meaning | null>, rows: readonly GridRow[]): Meaning | null {
  const could = (meaning: Meaning) => draft.candidates.includes(meaning) && !taken.has(meaning);
  if (could("batch-number") && draft.headingUnit === null && countsUp(rows, draft.index)) return "batch-number";
  const numbers = looksLike(rows, draft.index, "numbers") && !looksLike(rows, draft.index, "times");
  return could("minutes") && could("start") && numbers ? "minutes" : null;
}

/** Where two columns claim one meaning, the better heading wins; of equals that matter, none does and a person is asked. */
export function settleDoubles(drafts: readonly Draft[], rows: readonly GridRow[]): readonly Draft[] {
  const lost = new Map<Draft, "asked" | "second">();
  for (const meaning of new Set(drafts.map((draft) => draft.meaning))) {
    const rivals = drafts.filter((draft) => draft.meaning === meaning);
    if (meaning === null || rivals.length < 2 || MANY.has(meaning)) continue;
    const best = winner(meaning, rivals, rows);
    for (const rival of rivals)
      if (rival !== best) lost.set(rival, best === null && NEEDED.has(meaning) ? "asked" : "second");
    const [first] = rivals;
    if (best === null && !NEEDED.has(meaning) && first !== undefined) lost.delete(first);
  }
  return drafts.map((draft) => {
    const how = lost.get(draft);
    if (how === undefined || draft.meaning === null) return draft;
    if (how === "asked")
      return { ...draft, meaning: null, candidates: [draft.meaning], sure: "asked", why: "meaning-twice" };
    return { ...draft, meaning: null, sure: "likely", why: "meaning-taken" };
  });
}

function winner(meaning: Meaning, rivals: readonly Draft[], rows: readonly GridRow[]): Draft | null {
  for (const test of [
    (draft: Draft) => draft.why === "answered",
    (draft: Draft) => isUsed(rows, draft.index) && draft.why === "heading-known",
    (draft: Draft) => isUsed(rows, draft.index),
  ]) {
    const passing = rivals.filter(test);
    if (passing.length === 1) return passing[0] ?? null;
    if (passing.length > 1) return bestOf(meaning, passing, rows);
  }
  return rivals[0] ?? null;
}

function bestOf(meaning: Meaning, rivals: readonly Draft[], rows: readonly GridRow[]): Draft | null {
  if (meaning === "day") return mostDays(rivals, rows);
  if (meaning === "batch-number")
    return rivals.reduce((best, one) => (one.heading.length > best.heading.length ? one : best));
  return MASSES.has(meaning) ? byUnit(rivals) : null;
}

/** "Fresh (kg)" beside "Fresh (crates)": the one with a mass unit. */
function byUnit(rivals: readonly Draft[]): Draft | null {
  const weighed = rivals.filter((draft) => draft.headingUnit !== null && MASS_UNITS.has(draft.headingUnit));
  const counted = rivals.filter((draft) => unitOf(draft.headingUnit ?? "") !== null);
  return weighed.length === 1 && counted.length === rivals.length ? (weighed[0] ?? null) : null;
}

/** "Day" (Monday) beside "Date" (3 June): the one that holds whole dates. */
function mostDays(rivals: readonly Draft[], rows: readonly GridRow[]): Draft | null {
  const counts = rivals.map(
    (draft) => rows.slice(0, 200).filter((row) => isWhole(readDay(row.at(draft.index)).kind)).length,
  );
  const most = Math.max(...counts);
  return counts.filter((count) => count === most).length === 1 ? (rivals[counts.indexOf(most)] ?? null) : null;
}

function isWhole(kind: string): boolean {
  return kind === "day" || kind === "parts" || kind === "named" || kind === "era";
}
