import { isBlank } from "#server/terms/grid";
import type { ProblemCode } from "#server/terms/problem";
import type { RowOnGrid, TotalCheck } from "#server/terms/row";
import type { MassRead } from "../values/masses";
import { asideRow, sealAll } from "./aside";
import { batchOf } from "./batchOf";
import { siteOf, typeOfFuel } from "./carriedCells";
import { dayOfRow, sayWhyNoDay } from "./dayOfRow";
import { finished } from "./finished";
import { fuelOf } from "./fuelCells";
import { judgeMasses, type MassesRead, massesOf } from "./masses";
import { choicesOf, Reasons } from "./reasons";
import type { Carried, RowAtHand, TableAtHand } from "./table";
import type { Totals } from "./totals";
import { hasOnlyWeights, waitsForColumn, withoutWeights } from "./withoutWeights";

/** One row below a heading: a batch, fuel, a total, a note, or nothing; counted, held or set aside. */
export function readTableRow(
  table: TableAtHand,
  row: RowAtHand,
  carried: Carried,
  sums: Totals,
  totals: TotalCheck[],
): RowOnGrid {
  const { raw } = row;
  if (isBlank(raw)) return setAside(table, row, "blank-row");
  if (table.setAside.size > 0 && table.setAside.has(`${table.sheet}!${row.row}`))
    return setAside(table, row, "set-aside-by-person");
  if (row.total !== null) {
    if (row.total === "total") totals.push(...sums.check(table, row));
    return setAside(table, row, "totals-row");
  }
  const reasons = new Reasons(table.sheet, raw, table.accepted);
  const masses = massesOf(table, row);
  const fuel = fuelOf(table, row, typeOfFuel(table, row, carried), reasons);
  const site = siteOf(table, row, carried);
  const day = dayOfRow(table, row, carried, reasons);
  const speaksOfFuel = fuel.length > 0 || reasons.holdTheRow();
  if (!speaksOfWeights(masses) && !waitsForColumn(table, row)) {
    const code = speaksOfFuel ? null : withoutWeights(table, row, masses);
    if (code === "nothing-to-count") reasons.add(code, null);
    else if (code !== null) return setAside(table, row, code);
    const found = day.kind === "day" ? day : null;
    if (found === null && speaksOfFuel) sayWhyNoDay(table, day, carried, reasons);
    sums.add(table, null, fuel, reasons);
    return finished({ table, row, site, batch: null, driedOnly: false, fuel, day: found?.day ?? null, reasons });
  }
  const written = day.kind !== "day" || day.filled;
  if (written && hasOnlyWeights(table, row) && sums.isSum(table, row)) {
    if (day.kind === "absent" || (day.kind === "day" && !carried.hasFilled)) {
      totals.push(...sums.check(table, row));
      return setAside(table, row, "totals-row");
    }
    // Below a day that is written once, a row that equals the sum of those above may be a load or a subtotal.
    reasons.add("day-missing", table.byMeaning.day ?? null, choicesOf(carried.day === null ? [] : [carried.day.day]));
  }
  if (day.kind === "day" && day.filled) carried.hasFilled = true;
  judgeMasses(table, row, masses, reasons);
  if (day.kind !== "day") {
    sayWhyNoDay(table, day, carried, reasons);
    return finished({ table, row, site, batch: null, driedOnly: false, fuel: [], day: null, reasons });
  }
  const batch = batchOf(table, row, day, masses, reasons);
  sums.add(table, batch, fuel, reasons);
  const driedOnly = masses.fresh.kind === "absent" && masses.fresh.why !== "missing" && masses.dried.kind === "mass";
  return finished({ table, row, site, batch, driedOnly, fuel, day: day.day, reasons });
}

function setAside(table: TableAtHand, row: RowAtHand, code: ProblemCode): RowOnGrid {
  return asideRow(table.sheet, row.raw, code, sealAll(row.raw, table));
}

/** A weight above nothing, or something in a weight's cell that a person must look at. */
function speaksOfWeights({ fresh, dried }: MassesRead): boolean {
  return isSomething(fresh) || isSomething(dried);
}

function isSomething(read: MassRead): boolean {
  return read.kind === "mass" ? read.mass.value > 0 : read.kind === "problem";
}
