import type { TotalCheck } from "#server/terms/row";
import type { SoFar } from "#server/terms/soFar";
import { cellAt } from "../columns/column";
import { readNumber } from "../values/decimals";
import { fuelOf } from "./fuelCells";
import { massAt } from "./masses";
import { Reasons } from "./reasons";
import { note, type Summand, summandsOf } from "./summands";
import type { RowAtHand, TableAtHand } from "./table";
import { minutesAt } from "./times";

/** A written total may be off by rounding, in parts of the sum. */
const CLOSE = 0.01;
/** Sums are kept in whole billionths (micrograms), so that adding 0.1 and 0.2 gives 0.3. */
const BILLIONTHS = 1e9;

/** Adds up what the rows say, so that the log's own totals can be checked and are never taken for batches. */
export class Totals {
  /** by the index of the column */
  private readonly sinceStart: (number | undefined)[];
  private sinceTotal: (number | undefined)[];
  private loads: number;

  /** `before`: what the parts of the log before this one add up to. */
  constructor(before?: SoFar["sums"]) {
    this.sinceStart = [...(before?.sinceStart ?? [])];
    this.sinceTotal = [...(before?.sinceTotal ?? [])];
    this.loads = before?.loads ?? 0;
  }

  soFar(): SoFar["sums"] {
    return { sinceStart: [...this.sinceStart], sinceTotal: [...this.sinceTotal], loads: this.loads };
  }

  /** Adds a row; `isLoad` when it carries weights and not only fuel. */
  add(summands: readonly Summand[], isLoad: boolean): void {
    if (isLoad) this.loads++;
    for (const { column, value } of summands) {
      const billionths = Math.round(value * BILLIONTHS);
      const { index } = column;
      this.sinceStart[index] = (this.sinceStart[index] ?? 0) + billionths;
      this.sinceTotal[index] = (this.sinceTotal[index] ?? 0) + billionths;
    }
  }

  /** What the row says as a total, each beside the nearer of the sum of all rows and of those since the last total. */
  check(table: TableAtHand, row: RowAtHand): TotalCheck[] {
    const checks = totalsWritten(table, row).map(({ column, meaning, value }) => ({
      at: { sheet: table.sheet, row: row.row, column: column.column },
      meaning,
      written: value,
      read: this.nearer(column.index, value),
    }));
    this.sinceTotal = [];
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
    const all = (this.sinceStart[index] ?? 0) / BILLIONTHS;
    const part = (this.sinceTotal[index] ?? 0) / BILLIONTHS;
    return Math.abs(part - written) <= Math.abs(all - written) ? part : all;
  }
}

function totalsWritten(table: TableAtHand, row: RowAtHand): Summand[] {
  const found: Summand[] = [];
  for (const meaning of ["fresh", "dried"] as const) {
    const read = massAt(table, row, table.byMeaning.get(meaning));
    note(found, table.byMeaning.get(meaning), read.kind === "mass" ? read.mass.value : null);
  }
  const loads = table.byMeaning.get("loads");
  const count = loads === undefined ? null : readNumber(cellAt(row.raw, loads.index).text);
  note(found, loads, count?.kind === "number" ? Number(count.exact) : null);
  const unheard = new Reasons(table.sheet, row.raw);
  note(found, table.byMeaning.get("minutes"), minutesAt(table, row, unheard)?.value);
  return [...found, ...summandsOf(table, null, fuelOf(table, row, ANY_FUEL, unheard))];
}

/** A total may stand over fuels of several kinds; which one is named here does not matter to its sum. */
const ANY_FUEL = "LPG";
