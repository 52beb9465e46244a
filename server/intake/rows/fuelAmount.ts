import type { Fuel, FuelUnit, FuelWritten } from "#server/terms/fuel";
import type { Cell } from "#server/terms/grid";
import { plain } from "#server/terms/headings/plain";
import type { ProblemCode } from "#server/terms/problem";
import type { Hints } from "#server/terms/row";
import type { Column } from "../columns/column";
import { LONGEST_VALUE, type Mark, plainDigits, readNumber } from "../values/decimals";
import { decimalOf, quantity } from "../values/exact";
import { type MassRead, readMass, unitOf } from "../values/masses";
import { CYLINDER, MISSING, TO_COME, UNITS } from "../values/words";

/** What a cell says of fuel. Rows that say it of one fuel share the one list of what they say. */
export class AmountSaid {
  readonly kind = "said";
  readonly said: FuelWritten["said"];
  #last: readonly [FuelWritten] | null = null;

  constructor(said: FuelWritten["said"]) {
    this.said = said;
  }

  of(fuel: Fuel, { column }: Column): readonly [FuelWritten] {
    const last = this.#last;
    if (last !== null && last[0].fuel === fuel && last[0].column === column) return last;
    this.#last = [{ fuel, column, said: this.said }];
    return this.#last;
  }
}

/** What a cell of a fuel column says: something, nothing, or what a person must look at. */
export type AmountRead =
  | AmountSaid
  | { readonly kind: "absent" }
  | { readonly kind: "problem"; readonly code: ProblemCode; readonly puts: readonly string[] };

const CODES: Partial<Record<ProblemCode, ProblemCode>> = {
  "mass-not-a-number": "fuel-not-a-number",
  "mass-decimal-unclear": "fuel-not-a-number",
  "mass-error-cell": "fuel-not-a-number",
  "mass-unit-unknown": "fuel-unit-unknown",
  "mass-negative": "fuel-negative",
};
const OTHER_UNITS: ReadonlySet<string> = new Set(["kWh", "L", "m3"]);

/** An amount burned, or cylinders put on, as a cell of a fuel column says it. */
export function readAmount(cell: Cell, column: Column, mark: Mark | null, hints: Hints): AmountRead {
  const isWord = cell.text.length <= LONGEST_VALUE && /\p{L}/u.test(cell.text);
  const words = isWord ? plain(cell.text) : "";
  if (isWord && (MISSING.has(words) || TO_COME.has(words))) return { kind: "absent" };
  const cylinders = isWord ? cylindersIn(words) : null;
  if (cylinders !== null && (column.meaning === "lpg" || column.meaning === "fuel-amount")) {
    return new AmountSaid({ kind: "cylinder-change", count: cylinders });
  }
  const other = otherUnit(cell, column);
  if (other !== null) return new AmountSaid(other);
  const read = readMass(cell, { unit: column.unit, mark, containers: hints.containers ?? {} });
  if (read.kind === "mass") return new AmountSaid({ kind: "amount", amount: read.mass, unit: "kg" });
  return fuelProblem(read);
}

/** The same reason in the words of fuel. */
export function fuelProblem(read: Exclude<MassRead, { kind: "mass" }>): AmountRead {
  if (read.kind === "absent") return { kind: "absent" };
  return { kind: "problem", code: CODES[read.code] ?? read.code, puts: read.puts };
}

/** kWh, litres and cubic metres: from the cell, else from the column. */
function otherUnit(cell: Cell, column: Column): FuelWritten["said"] | null {
  if (cell.text.length > LONGEST_VALUE) return null;
  const found = /^([\d.,' ]+?)\s*(\p{L}[\p{L}\d³ ]*)$/u.exec(plainDigits(cell.text));
  const unit = found ? (unitOf(found[2] ?? "") ?? UNITS.get(plain(found[2] ?? "")) ?? null) : column.unit;
  if (unit === null || !OTHER_UNITS.has(unit)) return null;
  const exact =
    cell.kind === "number" && cell.value !== null
      ? decimalOf(cell.value)
      : exactIn(found ? (found[1] ?? "") : cell.text, column.decimalMark);
  if (exact === null || exact.startsWith("-")) return null;
  return { kind: "amount", amount: quantity(exact), unit: fuelUnit(unit) };
}

function exactIn(text: string, mark: Mark | null): string | null {
  const number = readNumber(text);
  if (number.kind === "number") return number.exact;
  if (number.kind !== "either" || mark === null) return null;
  return mark === "." ? number.point : number.comma;
}

function fuelUnit(unit: string): FuelUnit {
  return unit === "kWh" || unit === "L" || unit === "m3" ? unit : "kg";
}

/** "changed", "new bottle", "2 cylinders". */
export function cylindersIn(words: string): number | null {
  if (CYLINDER.has(words)) return 1;
  const found = /^(\d{1,2}) (.+)$/.exec(words);
  return found && CYLINDER.has(found[2] ?? "") ? Number(found[1]) : null;
}
