import type { Fuel, FuelWritten } from "#server/terms/fuel";
import { plain } from "#server/terms/headings/plain";
import { isFuel } from "../columns/column";
import { readMass } from "../values/masses";
import { NO, YES } from "../values/words";
import { cylindersIn, fuelProblem, readAmount } from "./fuelAmount";
import { choicesOf, type Reasons } from "./reasons";
import { cellIn, isPut, type RowAtHand, type TableAtHand } from "./table";

const NOTHING: readonly FuelWritten[] = [];
const CYLINDER_FUEL: Fuel = "lpg";

/** Amounts burned, cylinders put on, and cylinders weighed before and after; rows that say just the same share what they say. */
export function fuelOf(
  table: TableAtHand,
  row: RowAtHand,
  typeWritten: string | null,
  reasons: Reasons,
): readonly FuelWritten[] {
  let said = NOTHING;
  for (const column of table.fuels) {
    if (table.read.text(column, row) === null) continue;
    const read = isPut(table, row, column)
      ? readAmount(cellIn(row, column), column, ".", table.hints)
      : table.read.amount(column, row);
    if (read.kind === "problem") reasons.add(read.code, column, choicesOf(read.puts));
    if (read.kind !== "said") continue;
    const fuel = column.meaning !== null && isFuel(column.meaning) ? column.meaning : table.fuelNamed(typeWritten);
    if (fuel === null) reasons.add("fuel-type-unknown", column);
    else said = said.length === 0 ? read.of(fuel, column) : [...said, ...read.of(fuel, column)];
  }
  const change = changeIn(table, row, reasons);
  const gross = grossIn(table, row, reasons);
  if (change === null && gross === null) return said;
  return [...said, ...[change, gross].flatMap((more) => more ?? [])];
}

function changeIn(table: TableAtHand, row: RowAtHand, reasons: Reasons): FuelWritten | null {
  const column = table.byMeaning["cylinder-change"];
  if (column === undefined) return null;
  const text = row.raw.at(column.index).text.trim();
  const words = plain(text);
  if (text === "" || /^[-–—]+$/.test(text) || NO.has(words)) return null;
  const counted = /^\d{1,2}$/.test(words)
    ? Number(words)
    : (cylindersIn(words) ?? (YES.has(words) || /^[✓✔vx]$/i.test(text) ? 1 : null));
  if (counted === null) reasons.add("cell-not-read", column);
  if (counted === null || counted === 0) return null;
  return { fuel: CYLINDER_FUEL, column: column.column, said: { kind: "cylinder-change", count: counted } };
}

function grossIn(table: TableAtHand, row: RowAtHand, reasons: Reasons): FuelWritten | null {
  const before = weighedIn("cylinder-before", table, row, reasons);
  const after = weighedIn("cylinder-after", table, row, reasons);
  const place = before ?? after;
  if (place === null) return null;
  if (before && after && after.mass.value > before.mass.value) reasons.add("fuel-negative", after.column);
  const said = { kind: "gross", before: before?.mass ?? null, after: after?.mass ?? null } as const;
  return { fuel: CYLINDER_FUEL, column: place.column.column, said };
}

function weighedIn(
  meaning: "cylinder-before" | "cylinder-after",
  table: TableAtHand,
  row: RowAtHand,
  reasons: Reasons,
) {
  const column = table.byMeaning[meaning];
  if (column === undefined) return null;
  const read = readMass(cellIn(row, column), { unit: column.unit, mark: column.decimalMark, containers: {} });
  if (read.kind === "mass") return { mass: read.mass, column };
  const why = fuelProblem(read);
  if (why.kind === "problem") reasons.add(why.code, column, choicesOf(why.puts));
  return null;
}
