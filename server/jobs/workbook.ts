import { type CellValue, type WriteSheet, writeXlsx } from "hucre/xlsx";
import { columnLetter, liveFormulas } from "#server/evidence/liveFormulas";
import type { Column, Table, Value } from "#server/evidence/table";
import { EDITION } from "#server/terms/figure";
import type { AskedTables } from "./evidenceParts";

/** A cell of a spreadsheet holds no longer text; the CSV has it whole. */
const LONGEST = 32_767;
const NO_TIME = "1980-01-01T00:00:00Z";

/**
 * Evidence tables as one workbook: a sheet each with its headings frozen, numbers and yes-or-no typed, texts as texts, so
 * that none of them is ever run. Beside figures that can be added up again stand formulas that do so.
 *
 * The same tables give the same bytes: nothing of the time of writing goes in.
 */
export async function workbookOf(tables: readonly Table[], asked: AskedTables): Promise<Uint8Array> {
  const time = new Date(asked.known.time ?? NO_TIME);
  const batches = tables.find(({ name }) => name === "batches");
  const sheets = tables.map((table) =>
    table.name === "figures" && batches !== undefined ? withFormulas(table, batches) : sheetOf(table),
  );
  const written = await writeXlsx({
    sheets: [aboutSheet(tables, asked), ...sheets],
    properties: { title: "Evidence tables", creator: "Evendry", created: time, modified: time },
  });
  return written;
}

function sheetOf({ name, columns, rows }: Table): WriteSheet {
  const lines = rows.map((row) => columns.map((column, at) => typed(column, row[at] ?? null)));
  return {
    name,
    rows: [columns.map((column) => column.name), ...lines],
    columns: columns.map((column) => ({ width: widthOf(column) })),
    freezePane: { rows: 1 },
  };
}

/** The figures with what the sheet of batches gives again, and how far that is from the figure. */
function withFormulas(figures: Table, batches: Table): WriteSheet {
  const sheet = sheetOf(figures);
  const again = figures.columns.length;
  const value = figures.columns.findIndex(({ name }) => name === "value");
  const cells: NonNullable<WriteSheet["cells"]> = new Map();
  liveFormulas(figures, batches).forEach((live, index) => {
    if (live === null) return;
    const row = index + 2;
    const difference = live.result - Number(figures.rows[index]?.[value]);
    const formulas = [
      { formula: live.formula, formulaResult: live.result },
      { formula: `${columnLetter(again)}${row}-${columnLetter(value)}${row}`, formulaResult: difference },
    ];
    formulas.forEach((formula, at) => {
      cells.set(`${row - 1},${again + at}`, { ...formula, value: formula.formulaResult, type: "formula" });
    });
  });
  const [head = [], ...lines] = sheet.rows ?? [];
  return {
    ...sheet,
    rows: [[...head, "from_batches", "difference"], ...lines],
    columns: [...(sheet.columns ?? []), { width: 16 }, { width: 16 }],
    cells,
  };
}

function aboutSheet(tables: readonly Table[], { sites, whole, from, to, known }: AskedTables): WriteSheet {
  const lines: CellValue[][] = [
    ["Evidence tables", null],
    ["Sites", whole ? "all" : sites.map(({ code }) => code).join(", ")],
    ["First month", from],
    ["Last month", to],
    ["Records known", known.ledgerSize],
    ["Known on", known.time],
    ["Edition", EDITION],
    [
      "Formulas",
      "In the sheet figures, from_batches adds up the sheet batches. Put 0 in the column included there, and see the figure move.",
    ],
    ["Not here", "Single cells are in the table cells, as CSV. Names and remarks are sealed."],
    [null, null],
    ...tables.map(({ name, says }) => [name, says]),
  ];
  return { name: "about", rows: lines, columns: [{ width: 18 }, { width: 110 }] };
}

function typed({ kind }: Column, value: Value): CellValue {
  if (value === null) return null;
  if (kind === "number" || kind === "whole") return Number(value);
  if (kind === "yes-no") return value === true;
  return String(value).slice(0, LONGEST);
}

function widthOf({ name, kind }: Column): number {
  return Math.max(name.length + 2, kind === "day" ? 11 : 9);
}
