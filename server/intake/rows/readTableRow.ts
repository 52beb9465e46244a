import type { RowRead, TotalCheck } from "#server/terms/row";
import { asideRow, sealAll } from "./aside";
import { batchOf } from "./batchOf";
import { siteOf, typeOfFuel } from "./carriedCells";
import { dayOfRow, sayWhyNoDay } from "./dayOfRow";
import { finished } from "./finished";
import { fuelOf } from "./fuelCells";
import { judgeMasses, type MassesRead, massesOf } from "./masses";
import { reasonsOf } from "./reasons";
import { isBlank, totalWord } from "./structure";
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
): RowRead {
  const { raw } = row;
  const aside = (code: Parameters<typeof asideRow>[2]) => asideRow(table.sheet, raw, code, sealAll(raw, table));
  if (isBlank(raw)) return aside("blank-row");
  if (table.hints.answers?.setAside?.includes(`${table.sheet}!${row.row}`)) return aside("set-aside-by-person");
  const word = totalWord(raw);
  if (word !== null) {
    if (word === "total") totals.push(...sums.check(table, row));
    return aside("totals-row");
  }
  const reasons = reasonsOf(table.sheet, row.row);
  const masses = massesOf(table, row);
  const fuel = fuelOf(table, row, typeOfFuel(table, row, carried), reasons);
  const site = siteOf(table, row, carried);
  const day = dayOfRow(table, row, carried);
  const speaksOfFuel = fuel.length > 0 || reasons.list.length > 0;
  if (!speaksOfWeights(masses) && !waitsForColumn(table, row)) {
    const code = speaksOfFuel ? null : withoutWeights(table, row, masses);
    if (code === "nothing-to-count") reasons.add(code, null, "");
    else if (code !== null) return aside(code);
    const found = day.kind === "day" ? day : null;
    if (found === null && speaksOfFuel) sayWhyNoDay(table, row, day, carried, reasons);
    return finished({ table, row, site, batch: null, driedOnly: false, fuel, day: found?.day ?? null, reasons });
  }
  const written = day.kind !== "day" || day.filled;
  if (written && hasOnlyWeights(table, row) && sums.isSum(table, row)) {
    if (day.kind === "absent") {
      totals.push(...sums.check(table, row));
      return aside("totals-row");
    }
    // Below a day that is written once, a row that equals the sum of those above may be a load or a subtotal.
    reasons.add(
      "day-missing",
      table.byMeaning.get("day") ?? null,
      "",
      carried.day === null ? [] : [{ put: carried.day.day, yieldThen: null }],
    );
  }
  judgeMasses(table, row, masses, reasons);
  if (day.kind !== "day") {
    sayWhyNoDay(table, row, day, carried, reasons);
    return finished({ table, row, site, batch: null, driedOnly: false, fuel: [], day: null, reasons });
  }
  const batch = batchOf(table, row, day, masses, reasons);
  sums.add({ fresh: batch.fresh?.exact ?? null, dried: batch.dried?.exact ?? null, loads: String(batch.loads) });
  const driedOnly = masses.fresh.kind === "absent" && masses.fresh.why !== "missing" && masses.dried.kind === "mass";
  return finished({ table, row, site, batch, driedOnly, fuel, day: day.day, reasons });
}

/** A weight above nothing, or something in a weight's cell that a person must look at. */
function speaksOfWeights({ fresh, dried }: MassesRead): boolean {
  return [fresh, dried].some((read) => (read.kind === "mass" ? read.mass.value > 0 : read.kind === "problem"));
}
