import type { Fuel, FuelUnit, FuelWritten } from "#server/terms/fuel";
import type { Cell } from "#server/terms/grid";
import { plain } from "#server/terms/headings/plain";
import type { ProblemCode } from "#server/terms/problem";
import { type Column, cellAt, isFuel } from "../columns/column";
import { LONGEST_VALUE, plainDigits, readNumber } from "../values/decimals";
import { decimalOf, quantity } from "../values/exact";
import { type MassRead, readMass, unitOf } from "../values/masses";
import { CYLINDER, isAbsent, MISSING, NO, TO_COME, UNITS, YES } from "../values/words";
import { choicesOf, type Reasons } from "./reasons";
import { isPut, type RowAtHand, type TableAtHand } from "./table";

/** Every fuel statement of a row, still without its day. */
export type FuelSaid = Omit<FuelWritten, "day">;

const CODES: Partial<Record<ProblemCode, ProblemCode>> = {
  "mass-not-a-number": "fuel-not-a-number",
  "mass-decimal-unclear": "fuel-not-a-number",
  "mass-error-cell": "fuel-not-a-number",
  "mass-unit-unknown": "fuel-unit-unknown",
  "mass-negative": "fuel-negative",
};
const OTHER_UNITS: ReadonlySet<string> = new Set(["kWh", "L", "m3"]);
const CYLINDER_FUEL: Fuel = "lpg";

/** Amounts burned, cylinders put on, and cylinders weighed before and after. */
export function fuelOf(table: TableAtHand, row: RowAtHand, typeWritten: string | null, reasons: Reasons): FuelSaid[] {
  const said: FuelSaid[] = [];
  for (const column of table.fuels) {
    const cell = row.cells[column.index] ?? cellAt(row.raw, column.index);
    if (isAbsent(cell.text.trim())) continue;
    const fuel = column.meaning !== null && isFuel(column.meaning) ? column.meaning : table.fuelNamed(typeWritten);
    const found = amountIn(table, row, cell, column, reasons);
    if (found === null) continue;
    if (fuel === null) reasons.add("fuel-type-unknown", column);
    else said.push({ fuel, column: column.column, said: found });
  }
  return [...said, ...changeIn(table, row, reasons), ...grossIn(table, row, reasons)];
}

function amountIn(
  table: TableAtHand,
  row: RowAtHand,
  cell: Cell,
  column: Column,
  reasons: Reasons,
): FuelWritten["said"] | null {
  const isWord = cell.text.length <= LONGEST_VALUE && /\p{L}/u.test(cell.text);
  const words = isWord ? plain(cell.text) : "";
  if (isWord && (MISSING.has(words) || TO_COME.has(words))) return null;
  const cylinders = isWord ? cylindersIn(words) : null;
  if (cylinders !== null && (column.meaning === "lpg" || column.meaning === "fuel-amount")) {
    return { kind: "cylinder-change", count: cylinders };
  }
  const other = otherUnit(cell, column);
  if (other !== null) return other;
  const read = readMass(cell, {
    unit: column.unit,
    mark: isPut(table, row, column) ? "." : column.decimalMark,
    containers: table.hints.containers ?? {},
  });
  if (read.kind === "mass") return { kind: "amount", amount: read.mass, unit: "kg" };
  sayWhy(read, column, reasons);
  return null;
}

/** kWh, litres and cubic metres: from the cell, else from the column. */
function otherUnit(cell: Cell, column: Column): FuelWritten["said"] | null {
  if (cell.text.length > LONGEST_VALUE) return null;
  const found = /^([\d.,' ]+?)\s*(\p{L}[\p{L}\d³ ]*)$/u.exec(plainDigits(cell.text));
  const unit = found ? (unitOf(found[2] ?? "") ?? UNITS.get(plain(found[2] ?? "")) ?? null) : column.unit;
  if (unit === null || !OTHER_UNITS.has(unit)) return null;
  const number =
    cell.kind === "number" && cell.value !== null ? null : readNumber(found ? (found[1] ?? "") : cell.text);
  const exact =
    number === null
      ? decimalOf(cell.value ?? 0)
      : number.kind === "number"
        ? number.exact
        : number.kind === "either" && column.decimalMark !== null
          ? column.decimalMark === "."
            ? number.point
            : number.comma
          : null;
  if (exact === null || exact.startsWith("-")) return null;
  return { kind: "amount", amount: quantity(exact), unit: fuelUnit(unit) };
}

function fuelUnit(unit: string): FuelUnit {
  return unit === "kWh" || unit === "L" || unit === "m3" ? unit : "kg";
}

/** "changed", "new bottle", "2 cylinders". */
function cylindersIn(words: string): number | null {
  if (CYLINDER.has(words)) return 1;
  const found = /^(\d{1,2}) (.+)$/.exec(words);
  return found && CYLINDER.has(found[2] ?? "") ? Number(found[1]) : null;
}

function changeIn(table: TableAtHand, row: RowAtHand, reasons: Reasons): FuelSaid[] {
  const column = table.byMeaning.get("cylinder-change");
  if (column === undefined) return [];
  const text = cellAt(row.raw, column.index).text.trim();
  const words = plain(text);
  if (text === "" || /^[-–—]+$/.test(text) || NO.has(words)) return [];
  const counted = /^\d{1,2}$/.test(words)
    ? Number(words)
    : (cylindersIn(words) ?? (YES.has(words) || /^[✓✔vx]$/i.test(text) ? 1 : null));
  if (counted === null) {
    reasons.add("cell-not-read", column);
    return [];
  }
  return counted === 0
    ? []
    : [{ fuel: CYLINDER_FUEL, column: column.column, said: { kind: "cylinder-change", count: counted } }];
}

function grossIn(table: TableAtHand, row: RowAtHand, reasons: Reasons): FuelSaid[] {
  const [before, after] = (["cylinder-before", "cylinder-after"] as const).map((meaning) => {
    const column = table.byMeaning.get(meaning);
    if (column === undefined) return null;
    const cell = row.cells[column.index] ?? cellAt(row.raw, column.index);
    const read = readMass(cell, { unit: column.unit, mark: column.decimalMark, containers: {} });
    sayWhy(read, column, reasons);
    return read.kind === "mass" ? { mass: read.mass, column } : null;
  });
  const place = before ?? after;
  if (!place) return [];
  if (before && after && after.mass.value > before.mass.value) reasons.add("fuel-negative", after.column);
  const said = { kind: "gross", before: before?.mass ?? null, after: after?.mass ?? null } as const;
  return [{ fuel: CYLINDER_FUEL, column: place.column.column, said }];
}

function sayWhy(read: MassRead, column: Column, reasons: Reasons): void {
  if (read.kind === "problem") reasons.add(CODES[read.code] ?? read.code, column, choicesOf(read.puts));
}
