import type { Sheet } from "#server/terms/grid";
import type { Column } from "./column";
import type { FoundTable } from "./findTables";
import { readHeading } from "./headingWords";

/** The pan that a group of headings is named after, "A" of "Pan A" above both weights; null where none is. */
export function panAbove(sheet: Sheet, found: FoundTable, columns: readonly Column[]): string | null {
  const [top, second] = found.headingAt;
  const row = top === undefined || second === undefined ? undefined : sheet.rows[top];
  if (row === undefined || columns.some(({ meaning }) => meaning === "pan")) return null;
  const groups = columns
    .filter(({ meaning }) => meaning === "fresh" || meaning === "dried")
    .map(({ index }) => {
      let at = index;
      while (at > 0 && row.at(at).text.trim() === "") at--;
      return row.at(at).text.trim();
    });
  const [group, other] = groups;
  const [, word = "", name] = /^(.*\S)\s+(\S{1,12})$/u.exec(group ?? "") ?? [];
  if (name === undefined || group !== other) return null;
  const read = readHeading(word);
  return read?.why === "heading-known" && read.meanings.length === 1 && read.meanings[0] === "pan" ? name : null;
}
