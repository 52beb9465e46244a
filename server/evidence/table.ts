/** What a column holds. Only "text" was written by somebody; everything else is ours and of a fixed form. */
export type Kind = "text" | "number" | "whole" | "yes-no" | "day" | "time";

/** A number may come as the plain decimal that was written ("3.20"), which is kept to the last digit. */
export type Value = string | number | boolean | null;

export interface Column {
  readonly name: string;
  readonly kind: Kind;
  readonly unit: string | null;
  readonly says: string;
}

/** A table for people who check: every column says what it holds, and how it is taken from an item. */
export interface TableOf<T> {
  readonly name: string;
  readonly says: string;
  readonly columns: readonly (Column & { readonly of: (item: T) => Value })[];
}

/** A table laid out, or a part of one. */
export interface Table {
  readonly name: string;
  readonly says: string;
  readonly columns: readonly Column[];
  readonly rows: readonly (readonly Value[])[];
}

export function laidOut<T>(table: TableOf<T>, items: readonly T[]): Table {
  return { ...table, rows: items.map((item) => table.columns.map((column) => checked(column, column.of(item)))) };
}

const FORMS: Record<Exclude<Kind, "text" | "yes-no">, RegExp> = {
  number: /^-?\d+(\.\d+)?(e[+-]\d+)?$/,
  whole: /^-?\d+$/,
  day: /^\d{4}-\d{2}-\d{2}$/,
  time: /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}(\.\d+)?Z$/,
};

/** What stands in a column is of its kind: so a column of numbers can hold nothing that a spreadsheet would run. */
export function checked(column: Column, value: Value): Value {
  if (value === null) return null;
  const { kind } = column;
  const fits =
    kind === "text"
      ? typeof value === "string"
      : kind === "yes-no"
        ? typeof value === "boolean"
        : FORMS[kind].test(String(value));
  if (!fits) throw new Error(`${column.name} is a column of kind ${kind} and was to hold ${JSON.stringify(value)}`);
  return value;
}
