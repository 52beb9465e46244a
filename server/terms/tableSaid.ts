/**
 * What a record adds to a table, column by column, as JSON texts in one form only; null where a row says nothing.
 *
 * A column either has one text that all rows share, or one for every row. Texts that are bare stand in quotes, and
 * hold nothing that JSON would escape.
 */
export interface TableSaid {
  readonly rows: number;
  readonly columns: readonly ColumnSaid[];
}

export type ColumnSaid =
  | { readonly name: string; readonly all: string | null; readonly each: null }
  | { readonly name: string; readonly all?: never; readonly each: readonly (string | null)[]; readonly bare?: boolean };
