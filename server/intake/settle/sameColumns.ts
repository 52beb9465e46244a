import { plain } from "#server/terms/headings/plain";
import type { ColumnRead, TableRead } from "#server/terms/row";

/** A column of a log and the one that it was in an earlier log. */
export interface Pair {
  readonly now: ColumnRead;
  readonly before: ColumnRead;
  /** "same": the heading word for word; "unit": but for its unit; "renamed": another word for the same thing */
  readonly how: "same" | "unit" | "renamed";
}

/** Two tables are of one layout when at least so much of the longer one's headings stands in the other. */
const ALIKE = 0.5;
const FEWEST = 2;
/** No log has so many columns with headings; comparing each with each has to end. */
const MOST = 120;

/** The columns of a table beside those of an earlier one: by heading first, then by heading without its unit, then by what they hold. */
export function pairsOf(now: TableRead, before: TableRead): Pair[] {
  const pairs: Pair[] = [];
  if (headed(now).length > MOST || headed(before).length > MOST) return pairs;
  const pairUp = (how: Pair["how"], nameOf: (column: ColumnRead) => string | null) => {
    for (const column of headed(now)) {
      const name = nameOf(column);
      if (name === null || pairs.some((pair) => pair.now === column)) continue;
      const fits = headed(before).filter((one) => nameOf(one) === name && !pairs.some((pair) => pair.before === one));
      const rivals = headed(now).filter((one) => nameOf(one) === name && !pairs.some((pair) => pair.now === one));
      const [only, another] = fits;
      if (only !== undefined && another === undefined && rivals.length === 1)
        pairs.push({ now: column, before: only, how });
    }
  };
  pairUp("same", ({ heading }) => plain(heading));
  pairUp("unit", ({ heading }) => plain(withoutUnit(heading)) || null);
  pairUp("renamed", ({ meaning }) => meaning);
  return pairs;
}

/** Whether a table has the columns of an earlier one, from 0 to 1; 0 where they are too few to say. */
export function likeness(now: TableRead, before: TableRead): number {
  const known = pairsOf(now, before).filter(({ how }) => how !== "renamed").length;
  const share = known / Math.max(headed(now).length, headed(before).length, 1);
  return known >= FEWEST && share >= ALIKE ? share : 0;
}

/** The columns that have a heading. */
export function headed({ columns }: TableRead): readonly ColumnRead[] {
  return columns.filter(({ heading }) => plain(heading) !== "");
}

function withoutUnit(heading: string): string {
  return heading.replace(/[([{][^)\]}]*[)\]}]/g, " ").replace(/\b(?:kg|g|lb|min|h)\b\s*$/i, " ");
}
