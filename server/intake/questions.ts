import { FUELS } from "#server/terms/fuel";
import type { FileQuestion, Hints, Reading, RowOnGrid } from "#server/terms/row";
import { clockQuestion, yearsQuestion } from "./calendarQuestions";
import type { OrderFound } from "./columns/dayOrder";
import type { TableToRead } from "./rows/readRows";

/** What a person has to be asked about the file as a whole or about a column: each question once. */
export function questionsOf(
  tables: readonly TableToRead[],
  rows: readonly RowOnGrid[],
  order: OrderFound,
  hints: Hints,
  firstSheet: string,
): FileQuestion[] {
  if (tables.length === 0) return [{ code: "no-table", sheet: firstSheet, column: null, choices: [] }];
  const questions: FileQuestion[] = tables.flatMap(({ table }) => ofColumns(table.sheet, table.columns));
  const [first] = tables;
  const said = rows.filter(({ reasons }) => reasons.length > 0);
  const sheet = first?.table.sheet ?? firstSheet;
  questions.push(...ofDays(tables, said));
  if (order.open) questions.push({ code: "day-order", sheet, column: null, choices: ["dmy", "mdy"] });
  questions.push(...ofDecimalMarks(said), ...ofFuels(tables, said));
  if (hints.period === undefined && said.some(hasDayWithoutYear))
    questions.push({ code: "period", sheet, column: null, choices: [] });
  questions.push(...yearsQuestion(said, sheet, hints), ...clockQuestion(rows, sheet, hints));
  return questions;
}

function ofColumns(sheet: string, columns: readonly TableToRead["table"]["columns"][number][]): FileQuestion[] {
  return columns.flatMap((column): FileQuestion[] => {
    if (column.sure === "asked")
      return [{ code: "column-meaning", sheet, column: column.column, choices: column.candidates }];
    if (!column.unitUnknown) return [];
    const choices =
      column.meaning === "minutes" ? ["min", "h"] : column.meaning === "electricity" ? ["kWh"] : ["kg", "g", "lb"];
    return [{ code: "column-unit", sheet, column: column.column, choices }];
  });
}

/** A table whose loads have no day at all; what stands above it may be their day. */
function ofDays(tables: readonly TableToRead[], rows: readonly RowOnGrid[]): FileQuestion[] {
  const missing = new Set<string>();
  for (const { reasons } of rows)
    for (const { code, at } of reasons) if (code === "day-missing" && at.column === null) missing.add(at.sheet);
  return tables.flatMap(({ table: { sheet, dayAbove } }): FileQuestion[] =>
    missing.delete(sheet)
      ? [{ code: "day-of-sheet", sheet, column: null, choices: dayAbove === null ? [] : [dayAbove] }]
      : [],
  );
}

/** Asked once for the log: whoever writes decimal commas does so in every column. */
function ofDecimalMarks(rows: readonly RowOnGrid[]): FileQuestion[] {
  const columns = new Map<string, { readonly sheet: string; readonly column: string | null }>();
  for (const row of rows)
    for (const { code, at } of row.reasons)
      if (code === "mass-decimal-unclear") columns.set(`${at.sheet}!${at.column}`, at);
  const [first, second] = columns.values();
  if (first === undefined) return [];
  const column = second === undefined ? first.column : null;
  return [{ code: "decimal-mark", sheet: first.sheet, column, choices: [".", ","] }];
}

/** A column of fuel in a table that never says which: asked once. */
function ofFuels(tables: readonly TableToRead[], rows: readonly RowOnGrid[]): FileQuestion[] {
  const unknown = new Set<string>();
  for (const { reasons } of rows) {
    for (const { code, at } of reasons) if (code === "fuel-type-unknown") unknown.add(`${at.sheet}!${at.column}`);
  }
  return tables.flatMap(({ table }) =>
    table.fuels.flatMap(({ column }): FileQuestion[] => {
      const asks = table.byMeaning["fuel-type"] === undefined && unknown.has(`${table.sheet}!${column}`);
      return asks ? [{ code: "column-meaning", sheet: table.sheet, column, choices: FUELS }] : [];
    }),
  );
}

function hasDayWithoutYear(row: RowOnGrid): boolean {
  return row.reasons.some(
    ({ code, text }) =>
      code === "day-not-a-date" && /^\D*\d{1,2}(?:\s*[-/.]\s*\d{1,2}\.?|[\s.-]+\p{L}{3,})?$/u.test(text.trim()),
  );
}

/** Counts come from the rows, so that they add up to the file. */
export function countsOf(rows: readonly RowOnGrid[]): Reading["counts"] {
  let counted = 0;
  let held = 0;
  for (let at = 0; at < rows.length; at++) {
    const { fate } = rows[at]!;
    if (fate === "counted") counted++;
    else if (fate === "held") held++;
  }
  return { rows: rows.length, counted, held, setAside: rows.length - counted - held };
}
