import type { BatchWritten } from "#server/terms/batch";
import type { FuelWritten } from "#server/terms/fuel";
import type { TotalCheck } from "#server/terms/row";
import type { SoFar } from "#server/terms/soFar";
import type { Column } from "../columns/column";
import { readNumber } from "../values/decimals";
import { fuelOf } from "./fuelCells";
import { massAt } from "./masses";
import { Reasons } from "./reasons";
import { fuelColumn, note, type Summand } from "./summands";
import { Sums } from "./sums";
import type { RowAtHand, TableAtHand } from "./table";
import { minutesAt } from "./times";

/** A written total may be off by rounding, in parts of the sum. */
const CLOSE = 0.01;
/** Sums are kept in whole billionths (micrograms), so that adding 0.1 and 0.2 gives 0.3. */
const BILLIONTHS = 1e9;

/** Adds up what the rows say, so that the log's own totals can be checked and are never taken for batches. */
export class Totals {
  /** by the index of the column */
  private readonly sinceStart: Sums;
  private readonly sinceTotal: Sums;
  private loads: number;

  /** `before`: what the parts of the log before this one add up to. */
  constructor(before?: SoFar["sums"]) {
    this.sinceStart = new Sums(before?.sinceStart);
    this.sinceTotal = new Sums(before?.sinceTotal);
    this.loads = before?.loads ?? 0;
  }

  soFar(): SoFar["sums"] {
    return { sinceStart: this.sinceStart.list(), sinceTotal: this.sinceTotal.list(), loads: this.loads };
  }

  /** Adds a batch, where the row has one, and the fuel beside it; not a weight whose unit is in doubt. */
  add(table: TableAtHand, batch: BatchWritten | null, fuel: readonly FuelWritten[], reasons: Reasons): void {
    if (batch !== null) {
      const { fresh, dried, loads, minutes } = table.byMeaning;
      this.loads++;
      this.addTo(fresh, batch.fresh?.value, reasons);
      this.addTo(dried, batch.dried?.value, reasons);
      this.addTo(loads, batch.loads, reasons);
      this.addTo(minutes, batch.minutes?.value, reasons);
    }
    for (const one of fuel)
      if (one.said.kind === "amount") this.addTo(fuelColumn(table, one), one.said.amount.value, reasons);
  }

  private addTo(column: Column | undefined, value: number | undefined, reasons: Reasons): void {
    if (column === undefined || value === undefined || reasons.doubtUnit(column)) return;
    const billionths = Math.round(value * BILLIONTHS);
    this.sinceStart.add(column.index, billionths);
    this.sinceTotal.add(column.index, billionths);
  }

  /** What the row says as a total, each beside the nearer of the sum of all rows and of those since the last total. */
  check(table: TableAtHand, row: RowAtHand): TotalCheck[] {
    const checks = totalsWritten(table, row).map(({ column, meaning, value }) => ({
      at: { sheet: table.sheet, row: row.row, column: column.column },
      meaning,
      written: value,
      read: this.nearer(column.index, value),
    }));
    this.sinceTotal.clear();
    return checks;
  }

  /** Without a word for it, a row is a total when both weights are the sums of at least two rows above. */
  isSum(table: TableAtHand, row: RowAtHand): boolean {
    if (this.loads < 2) return false;
    const weights = totalsWritten(table, row).filter(({ meaning }) => meaning === "fresh" || meaning === "dried");
    const match = weights.filter(
      ({ column, value }) => Math.abs(value - this.nearer(column.index, value)) <= value * CLOSE,
    );
    return match.length === 2 && match.every(({ value }) => value > 0);
  }

  private nearer(index: number, written: number): number {
    const all = this.sinceStart.at(index) / BILLIONTHS;
    const part = this.sinceTotal.at(index) / BILLIONTHS;
    return Math.abs(part - written) <= Math.abs(all - written) ? part : all;
  }
}

function totalsWritten(table: TableAtHand, row: RowAtHand): Summand[] {
  const found: Summand[] = [];
  for (const meaning of ["fresh", "dried"] as const) {
    const read = massAt(table, row, table.byMeaning[meaning]);
    note(found, table.byMeaning[meaning], read.kind === "mass" ? read.mass.value : null);
  }
  const loads = table.byMeaning.loads;
  const count = loads === undefined ? null : readNumber(row.raw.at(loads.index).text);
  note(found, loads, count?.kind === "number" ? Number(count.exact) : null);
  const unheard = new Reasons(table.sheet, row.raw);
  note(found, table.byMeaning.minutes, minutesAt(table, row, unheard)?.value);
  for (const one of fuelOf(table, row, ANY_FUEL, unheard))
    if (one.said.kind === "amount") note(found, fuelColumn(table, one), one.said.amount.value);
  return found;
}

/** A total may stand over fuels of several kinds; which one is named here does not matter to its sum. */
const ANY_FUEL = "LPG";
