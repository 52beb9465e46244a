import { writeXlsx } from "hucre/xlsx";
import type { SheetCell, WrittenSheet } from "../site";

/** A workbook as bytes; `savedAt` stands in its properties. The same sheets give the same bytes. */
export async function workbook(sheets: readonly WrittenSheet[], savedAt: Date): Promise<Uint8Array> {
  const bytes = await writeXlsx({
    properties: { created: savedAt, modified: savedAt },
    sheets: sheets.map(({ name, rows }) => ({ name, rows: rows.map((row) => row.map(cellOf)) })),
  });
  return new Uint8Array(bytes);
}

function cellOf(cell: SheetCell): string | number | Date | null {
  return cell !== null && typeof cell === "object" ? new Date(`${cell.day}T00:00:00Z`) : cell;
}
