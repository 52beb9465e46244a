import { unguarded } from "./formulaGuard";
import { type Column, checked, type Value } from "./table";

/**
 * Reads a table that `csvHead` and `csvRows` wrote, back to what was written: numbers as their decimals.
 *
 * Throws where it is no such table; it is for our own tables and for no log.
 */
export function readCsv(text: string, columns: readonly Column[]): Value[][] {
  const [head = [], ...records] = recordsOf(text);
  const names = head.map(({ text: name }) => name).join();
  if (names !== columns.map(({ name }) => name).join()) throw new Error(`the columns are ${names}`);
  return records.map((record) => {
    if (record.length !== columns.length) throw new Error(`a row has ${record.length} fields of ${columns.length}`);
    return columns.map((column, at) => valueIn(column, record[at] ?? { text: "", quoted: false }));
  });
}

interface Field {
  readonly text: string;
  readonly quoted: boolean;
}

function valueIn(column: Column, { text, quoted }: Field): Value {
  if (text === "" && !quoted) return null;
  if (column.kind === "text") return unguarded(text);
  return checked(column, column.kind === "yes-no" ? text === "true" : text);
}

const FIELD = /(?:"((?:[^"]+|"")*)"|([^",\r\n]*))(,|\r\n)/y;

function recordsOf(text: string): Field[][] {
  const records: Field[][] = [];
  let record: Field[] = [];
  FIELD.lastIndex = 0;
  while (FIELD.lastIndex < text.length) {
    const at = FIELD.lastIndex;
    const found = FIELD.exec(text);
    if (found === null) throw new Error(`the table is damaged at character ${at}`);
    const [, inQuotes, plain = "", end] = found;
    record.push(
      inQuotes === undefined ? { text: plain, quoted: false } : { text: inQuotes.replaceAll('""', '"'), quoted: true },
    );
    if (end === ",") continue;
    records.push(record);
    record = [];
  }
  if (record.length > 0) throw new Error("the last row of the table is not finished");
  return records;
}
