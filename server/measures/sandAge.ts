/** What of a row tells how old the sand of a pan is. */
export interface SandRow {
  readonly pan: string;
  readonly day: string;
  /** minutes after midnight; null where the log does not say */
  readonly startMinute: number | null;
  readonly loads: number;
  /** which load on its sand the row's first one was, as counted by the site; null where it does not count them */
  readonly sandCycle: number | null;
  /** true: the first load of the row was on new sand */
  readonly newSand: boolean | null;
}

/** A pan's loads since its sand was new. */
export interface PanAge {
  readonly pan: string;
  /** days on which its sand was new, in order */
  readonly newOn: readonly string[];
  /** at the end of each day on which it was used; null before any new sand was logged */
  readonly days: readonly { readonly day: string; readonly loads: number | null }[];
}

/**
 * How old the sand of each pan is, in loads since new sand was logged, pans by name.
 *
 * Rows count in the order of days and starts, whatever order they come in. A row that logs new sand begins at one, its own
 * loads being the first on it; a row with the site's own count goes on from that. Where a start is not logged, new sand is taken to come before the other loads of its day, so
 * that no age is told too low. Unknown (null) until the first new sand or count of a pan, and for ever where there is none.
 *
 * sandAge([2 loads; new sand 1 load; 3 loads] of one pan on three days) // null, 1, 4
 */
export function sandAge(rows: readonly SandRow[]): PanAge[] {
  const pans = [...new Set(rows.map(({ pan }) => pan))].sort();
  return pans.map((pan) => {
    const newOn = new Set<string>();
    const days = new Map<string, number | null>();
    let age: number | null = null;
    for (const row of rows.filter((one) => one.pan === pan).sort(inOrderOfUse)) {
      const isNew = row.newSand === true || row.sandCycle === 1;
      if (isNew) newOn.add(row.day);
      const before: number | null = isNew ? 0 : row.sandCycle === null ? age : row.sandCycle - 1;
      age = before === null ? null : before + row.loads;
      days.set(row.day, age);
    }
    return { pan, newOn: [...newOn], days: [...days].map(([day, loads]) => ({ day, loads })) };
  });
}

function inOrderOfUse(a: SandRow, b: SandRow): number {
  if (a.day !== b.day) return a.day < b.day ? -1 : 1;
  // rows that start together must count alike in any order: new sand first, then the smaller one
  return placeInDay(a) - placeInDay(b) || Number(b.newSand === true) - Number(a.newSand === true) || lastly(a, b);
}

function lastly(a: SandRow, b: SandRow): number {
  return (a.sandCycle ?? 0) - (b.sandCycle ?? 0) || a.loads - b.loads;
}

/** Without a start new sand comes first and everything else last. */
function placeInDay({ startMinute, newSand }: SandRow): number {
  return startMinute ?? (newSand === true ? -1 : Number.MAX_SAFE_INTEGER);
}
