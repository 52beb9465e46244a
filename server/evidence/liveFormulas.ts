import type { Column, Table, Value } from "./table";

/** A formula for one row of the figures, and what it comes to before anybody changes anything. */
export interface Live {
  readonly formula: string;
  readonly result: number;
}

interface Sums {
  readonly fresh: string;
  readonly freshIncluded: string;
  readonly driedIncluded: string;
}

interface Totals {
  fresh: number;
  freshIncluded: number;
  driedIncluded: number;
}

/** Figures that can be added up again from the sheet of batches by any spreadsheet, with functions that all of them have. */
const LIVE: Record<string, { formula: (sums: Sums) => string; result: (totals: Totals) => number }> = {
  fresh: { formula: ({ fresh }) => fresh, result: ({ fresh }) => fresh },
  dried: { formula: ({ driedIncluded }) => driedIncluded, result: ({ driedIncluded }) => driedIncluded },
  "dry-yield": {
    formula: ({ freshIncluded, driedIncluded }) => `IF(${freshIncluded}=0,"",${driedIncluded}/${freshIncluded})`,
    result: ({ freshIncluded, driedIncluded }) => driedIncluded / freshIncluded,
  },
  "driven-off": {
    formula: ({ freshIncluded, driedIncluded }) => `${freshIncluded}-${driedIncluded}`,
    result: ({ freshIncluded, driedIncluded }) => freshIncluded - driedIncluded,
  },
};

/**
 * For each row of the figures the formula that works it out again from the sheet "batches", or null where there is none:
 * the figure has no value, or it needs more than sums of batches.
 *
 * Formulas sum over all batches with the column `included`, never over a list picked before, so that whoever checks can
 * put a 0 there and see the figure move. Results are added up here from the same table, not taken from the figures.
 */
export function liveFormulas(figures: Table, batches: Table): (Live | null)[] {
  const totals = totalsOf(batches);
  const last = batches.rows.length + 1;
  const range = (name: string) =>
    `batches!$${letter(batches.columns, name)}$2:$${letter(batches.columns, name)}$${last}`;
  const at = (name: string, row: number) => `$${letter(figures.columns, name)}${row}`;
  const cell = (cells: readonly Value[], name: string) => cells[position(figures.columns, name)] ?? null;
  return figures.rows.map((cells, index) => {
    const live = LIVE[String(cell(cells, "measure"))];
    const total = totals.get(
      [cell(cells, "site"), String(cell(cells, "from")).slice(0, 7), cell(cells, "method")].join(" "),
    );
    if (live === undefined || total === undefined || cell(cells, "value") === null) return null;
    const row = index + 2;
    const wanted = `${at("site", row)}&" "&LEFT(${at("from", row)},7)&" "&${at("method", row)}`;
    const same = `${range("belongs_to")},${wanted}`;
    const included = `${same},${range("included")},1`;
    const formula = live.formula({
      fresh: `SUMIFS(${range("fresh_kg")},${same})`,
      freshIncluded: `SUMIFS(${range("fresh_kg")},${included})`,
      driedIncluded: `SUMIFS(${range("dried_kg")},${included})`,
    });
    return { formula, result: live.result(total) };
  });
}

/** The letter of a column: 0 is "A", 26 is "AA". */
export function columnLetter(at: number): string {
  return at < 26 ? String.fromCharCode(65 + at) : columnLetter(Math.floor(at / 26) - 1) + columnLetter(at % 26);
}

function totalsOf({ columns, rows }: Table): Map<string, Totals> {
  const found = new Map<string, Totals>();
  const [belongsTo, fresh, dried, included] = ["belongs_to", "fresh_kg", "dried_kg", "included"].map((name) =>
    position(columns, name),
  ) as [number, number, number, number];
  for (const row of rows) {
    const key = String(row[belongsTo]);
    const totals = found.get(key) ?? { fresh: 0, freshIncluded: 0, driedIncluded: 0 };
    totals.fresh += Number(row[fresh] ?? 0);
    if (row[included] === 1) {
      totals.freshIncluded += Number(row[fresh] ?? 0);
      totals.driedIncluded += Number(row[dried] ?? 0);
    }
    found.set(key, totals);
  }
  return found;
}

function letter(columns: readonly Column[], name: string): string {
  return columnLetter(position(columns, name));
}

function position(columns: readonly Column[], name: string): number {
  const at = columns.findIndex((column) => column.name === name);
  if (at < 0) throw new Error(`the table has no column ${name}`);
  return at;
}
