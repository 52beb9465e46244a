import type { Cell, Sheet } from "#server/terms/grid";
import type { FoundTable } from "./findTables";
import { readHeading } from "./headingWords";

/** So many rows above its heading may say the day of a table. */
const LOOKED_AT = 12;

/** The cell that says the day of a table that has no column for it: "Date: 3 June 2031" above the heading; null if none does. */
export function cellOfDayAbove(sheet: Sheet, found: FoundTable): Cell | null {
  const heading = found.headingAt[0] ?? 0;
  for (let at = heading - 1; at >= Math.max(0, heading - LOOKED_AT); at--) {
    const row = sheet.rows[at];
    if (row === undefined) continue;
    for (let index = 0; index < row.width; index++) {
      const [label = "", ...rest] = row.at(index).text.split(":");
      if (!namesDay(label)) continue;
      const beside = rest.join(":").trim();
      if (beside !== "") return { text: beside, kind: "text", value: null };
      const next = row.cells.slice(index + 1).find(({ text }) => text.trim() !== "");
      if (next !== undefined) return next;
    }
  }
  return null;
}

function namesDay(label: string): boolean {
  const read = label.trim() === "" ? null : readHeading(label);
  return read?.why === "heading-known" && read.meanings.length === 1 && read.meanings[0] === "day";
}
