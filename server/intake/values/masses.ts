import type { Quantity } from "#server/terms/batch";
import type { Cell } from "#server/terms/grid";
import { plain } from "#server/terms/headings/plain";
import type { ProblemCode } from "#server/terms/problem";
import { LONGEST_VALUE, type Mark, type NumberRead, plainDigits, readNumber } from "./decimals";
import { decimalOf, plus, quantity, times } from "./exact";
import { beginsWith, CONTAINERS, isAbsent, MISSING, NOTHING_PRODUCED, REPEATS, TO_COME, UNITS } from "./words";

/** kg in one unit, exact by definition (the pound by the agreement of 1959: 0.45359237 kg, sixteen ounces to it). */
const KG = {
  kg: "1",
  g: "0.001",
  t: "1000",
  lb: "0.45359237",
  oz: "0.028349523125",
} as const;

/** Kilograms in a pound, as a number. */
export const KG_IN_POUND = Number(KG.lb);

/** How the numbers of one column are to be read. `unit` is a mass unit, a container's name, or null when unknown. */
export interface Measure {
  readonly unit: string | null;
  readonly mark: Mark | null;
  readonly containers: Readonly<Record<string, number>>;
  /** which of the two weights it is, for a cell that repeats it in words */
  readonly weight?: "fresh" | "dried" | null;
}

export type MassRead =
  | { readonly kind: "mass"; readonly mass: Quantity; readonly unitFromCell: boolean }
  | { readonly kind: "absent"; readonly why: "blank" | "missing" | "to-come" | "idle" }
  | { readonly kind: "problem"; readonly code: ProblemCode; readonly puts: readonly string[] };

const UNIT_PAIR = /^(.+?\d)\s*(kgs?|kilos?|k)\.?\s*(?:et|and|y|e|na|dan|,)?\s*(\d[\d.,]*)\s*(g|gr|grs|gms?)\.?$/i;
const WITH_UNIT = /^([^\p{L}]*[\d½¼¾][\d.,]*)\s*(\p{L}[\p{L}.³ ]*)$/u;
const ERROR = /^#(?:[A-Z/0!?]+[!?A]?|#+)$/;

/** Kilograms that a cell says. A unit in the cell beats that of its column; a container counts with its declared kg. */
export function readMass(cell: Cell, measure: Measure): MassRead {
  if (cell.kind === "error") return problem("mass-error-cell");
  if (cell.kind === "number" && cell.value !== null) return inUnit(decimalOf(cell.value), measure.unit, measure, false);
  const text = cell.text.trim();
  if (isAbsent(text)) return { kind: "absent", why: "blank" };
  if (text.length > LONGEST_VALUE) return problem("mass-not-a-number");
  const plainly = readNumber(text);
  if (plainly.kind === "number") return inUnit(plainly.exact, measure.unit, measure, false);
  if (plainly.kind !== "none") return settled(plainly, measure.unit, measure, false);
  return readWithWords(text, measure);
}

function readWithWords(text: string, measure: Measure): MassRead {
  if (ERROR.test(text)) return problem("mass-error-cell");
  const digits = plainDigits(text);
  const pair = UNIT_PAIR.exec(digits);
  if (pair) return sumOf([readMassText(`${pair[1]} kg`, measure), readMassText(`${pair[3]} g`, measure)], true);
  const found = WITH_UNIT.exec(digits);
  if (found) {
    const number = readNumber(found[1] ?? "");
    const unit = unitOf(found[2] ?? "");
    if (unit !== null) return settled(number, unit, measure, true);
    const before = measure.weight == null ? null : wordsBefore(plain(found[2] ?? ""), REPEATS[measure.weight]);
    if (before === "") return settled(number, measure.unit, measure, false);
    const unitBefore = before === null ? null : unitOf(before);
    if (unitBefore !== null) return settled(number, unitBefore, measure, true);
  }
  if (/^=?\s*[\d.,]+(?:\s*\+\s*[\d.,]+)+$/.test(digits)) {
    return sumOf(
      digits
        .replace("=", "")
        .split("+")
        .map((part) => readMassText(part, measure)),
      false,
    );
  }
  const words = plain(text);
  if (TO_COME.has(words)) return { kind: "absent", why: "to-come" };
  if (MISSING.has(words)) return { kind: "absent", why: "missing" };
  return beginsWith(words, NOTHING_PRODUCED) ? { kind: "absent", why: "idle" } : problem("mass-not-a-number");
}

function readMassText(text: string, measure: Measure): MassRead {
  return readMass({ text, kind: "text", value: null }, measure);
}

function sumOf(parts: readonly MassRead[], unitFromCell: boolean): MassRead {
  let exact = "0";
  for (const part of parts) {
    if (part.kind === "problem") return part;
    if (part.kind === "absent") return problem("mass-not-a-number");
    exact = plus(exact, part.mass.exact);
  }
  return { kind: "mass", mass: quantity(exact), unitFromCell };
}

/** What stands before words that only repeat the column: "kg" of "kg in"; null where they say something else. */
function wordsBefore(words: string, repeats: ReadonlySet<string>): string | null {
  const parts = words.split(" ");
  const at = parts.findIndex((_, from) => repeats.has(parts.slice(from).join(" ")));
  if (at === -1) return null;
  // "kg in" is a heading as well; its "kg" is the cell's own unit all the same.
  return at === 0 && parts.length > 1 && unitOf(parts[0] ?? "") !== null
    ? (parts[0] ?? "")
    : parts.slice(0, at).join(" ");
}

/** The unit or container that a word names; null for any other word. */
export function unitOf(word: string): string | null {
  const words = plain(word);
  const unit = UNITS.get(words);
  if (unit !== undefined) return unit;
  return CONTAINERS.has(words) ? words : null;
}

/** A number once the column's mark has decided it; with no mark, both readings are offered. */
function settled(read: NumberRead, unit: string | null, measure: Measure, fromCell: boolean): MassRead {
  if (read.kind === "number") return inUnit(read.exact, unit, measure, fromCell);
  if (read.kind === "either" && measure.mark !== null) {
    return inUnit(measure.mark === "." ? read.point : read.comma, unit, measure, fromCell);
  }
  if (read.kind === "either")
    return problem(
      "mass-decimal-unclear",
      [read.point, read.comma].flatMap((exact) => puts(exact, unit)),
    );
  if (read.kind === "doubtful") return problem("mass-not-a-number", puts(read.exact, unit));
  return problem("mass-not-a-number");
}

/** What a person may put in the place of a cell: the number with its unit, or with each that it could have. */
function puts(exact: string, unit: string | null): string[] {
  return (unit === null ? ["kg", "g", "lb"] : [unit]).map((one) => `${exact} ${one}`);
}

function inUnit(exact: string, unit: string | null, measure: Measure, fromCell: boolean): MassRead {
  if (exact.startsWith("-")) return problem("mass-negative");
  if (unit === null) {
    return exact === "0"
      ? { kind: "mass", mass: quantity("0"), unitFromCell: false }
      : problem("mass-unit-unknown", puts(exact, null));
  }
  const factor = kgIn(unit) ?? containerKg(unit, measure.containers);
  if (factor === null) return problem(CONTAINERS.has(unit) ? "container-without-weight" : "mass-unit-unknown");
  return { kind: "mass", mass: quantity(times(exact, factor)), unitFromCell: fromCell };
}

function kgIn(unit: string): string | null {
  return unit === "kg" || unit === "g" || unit === "t" || unit === "lb" || unit === "oz" ? KG[unit] : null;
}

/** "haces" finds what is declared for "haz" and the other way round. */
function containerKg(unit: string, containers: Readonly<Record<string, number>>): string | null {
  for (const name of [unit, ...(CONTAINERS.get(unit) ?? [])]) {
    const kg = Object.hasOwn(containers, name) ? containers[name] : undefined;
    if (kg !== undefined) return decimalOf(kg);
  }
  return null;
}

function problem(code: ProblemCode, puts: readonly string[] = []): MassRead {
  return { kind: "problem", code, puts };
}
