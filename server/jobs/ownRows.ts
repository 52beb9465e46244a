import { asPerson } from "#db/asPerson";
import { rowsOfFile } from "#db/queries/rows";
import { csvHead, csvRows } from "#server/evidence/csv";
import type { Column } from "#server/evidence/table";
import type { Corridor } from "./record";

/** The rows of a log that are of one site, with what stands in their cells, as CSV. Null where there are none. */
export async function ownRowsCsv(corridor: Corridor, file: string, site: number): Promise<string | null> {
  const rows = (await asPerson(corridor, (tx) => rowsOfFile(tx, file))).filter((row) => row.site === site);
  if (rows.length === 0) return null;
  const letters = [...new Set(rows.flatMap(({ cells }) => cells.map(({ column }) => column)))].sort(
    (a, b) => a.length - b.length || (a < b ? -1 : 1),
  );
  const text = (name: string): Column => ({ name, kind: "text", unit: null, says: name });
  const columns = [
    text("sheet"),
    { name: "row", kind: "whole", unit: null, says: "row" } as const,
    text("fate"),
    ...letters.map(text),
  ];
  return (
    csvHead(columns) +
    csvRows(
      columns,
      rows.map((row) => [
        row.sheet,
        row.row,
        row.fate,
        ...letters.map((letter) => row.cells.find(({ column }) => column === letter)?.text ?? null),
      ]),
    )
  );
}
