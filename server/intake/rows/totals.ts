import type { Meaning, TotalCheck } from "#server/terms/row";
import { cellAt } from "../columns/column";
import { readNumber } from "../values/decimals";
import { massAt } from "./masses";
import type { RowAtHand, TableAtHand } from "./table";

const CHECKED = ["fresh", "dried", "loads"] as const satisfies readonly Meaning[];
type Checked = (typeof CHECKED)[number];
/** Sums in whole milligrams (millionths), so that adding 0.1 and 0.2 gives 0.3. */
type Sums = Record<Checked, number>;

const NONE: Sums = { fresh: 0, dried: 0, loads: 0 };
const MILLIONTHS = 1e6;

/** A written total may be off by rounding, in parts of the sum. */
const CLOSE = 0.01;

/** Adds up what the rows say, so that the log's own totals can be checked and are never taken for batches. */
export class Totals {
  private readonly sinceStart: Sums = { ...NONE };
  private sinceTotal: Sums = { ...NONE };
  private rows = 0;

  add(values: Readonly<Record<Checked, number | null>>): void {
    this.rows++;
    for (const meaning of CHECKED) {
      const value = values[meaning];
      if (value === null) continue;
      const millionths = Math.round(value * MILLIONTHS);
      this.sinceStart[meaning] += millionths;
      this.sinceTotal[meaning] += millionths;
    }
  }

  /** What the row says as a total, each beside the nearer of the sum of all rows and of those since the last total. */
  check(table: TableAtHand, row: RowAtHand): TotalCheck[] {
    const checks: TotalCheck[] = [];
    for (const meaning of CHECKED) {
      const written = valueAt(table, row, meaning);
      const column = table.byMeaning.get(meaning);
      if (written === null || column === undefined) continue;
      const read = this.nearer(meaning, written);
      checks.push({ at: { sheet: table.sheet, row: row.row, column: column.column }, meaning, written, read });
    }
    this.sinceTotal = { ...NONE };
    return checks;
  }

  /** Without a word for it, a row is a total when two weights are both the sums of at least two rows above. */
  isSum(table: TableAtHand, row: RowAtHand): boolean {
    if (this.rows < 2) return false;
    return (["fresh", "dried"] as const).every((meaning) => {
      const written = valueAt(table, row, meaning);
      return written !== null && written > 0 && Math.abs(written - this.nearer(meaning, written)) <= written * CLOSE;
    });
  }

  private nearer(meaning: Checked, written: number): number {
    const all = this.sinceStart[meaning] / MILLIONTHS;
    const part = this.sinceTotal[meaning] / MILLIONTHS;
    return Math.abs(part - written) <= Math.abs(all - written) ? part : all;
  }
}

function valueAt(table: TableAtHand, row: RowAtHand, meaning: Checked): number | null {
  const column = table.byMeaning.get(meaning);
  if (column === undefined) return null;
  if (meaning === "loads") {
    const read = readNumber(cellAt(row.raw, column.index).text);
    return read.kind === "number" ? Number(read.exact) : null;
  }
  const read = massAt(table, row, column);
  return read.kind === "mass" ? read.mass.value : null;
}
