import type { Fault } from "#server/terms/fault";
import type { RowOnGrid } from "#server/terms/row";
import { kgOf, type Load, loadsOf, pooled, rowNumbers } from "./loads";

const FEWEST = 3;
/** Proposed only where a log like this one would show it by chance less than once in a thousand. */
const BY_CHANCE = 0.001;
/** Longer sheets are no month of a site; comparing every row with every other has to end. */
const MOST_LOADS = 2000;

/**
 * Rows that were copied: the same measured values row after row, or a block of rows that comes again further down.
 *
 * Only what is measured is compared (both weights and the minutes), and how often it would come by chance is reckoned from
 * how often two loads of this log are alike: with fixed loads of 1 kg on a scale of 10 g three equal rows are nothing.
 */
export function rowsCopied(sheet: string, rows: readonly RowOnGrid[]): Fault[] {
  const loads = loadsOf(rows);
  if (loads.length < 2 * FEWEST || loads.length > MOST_LOADS) return [];
  const said = loads.map(({ fresh, dried, batch }) => `${fresh.exact}|${dried.exact}|${batch.minutes?.exact ?? ""}`);
  const run = longestRun(said);
  const block = longestBlock(said);
  const found: Fault[] = [];
  const inRun = (run.length - 1) * run.length;
  const ofRun = (loads.length - run.length + 1) * alike(said, inRun) ** (run.length - 1);
  if (run.length >= FEWEST && ofRun < BY_CHANCE) found.push(fault(sheet, loads, run.at, run.length, 1, ofRun));
  const pairs = (loads.length * (loads.length - 1)) / 2;
  const ofBlock = pairs * alike(said, 2 * block.length) ** block.length;
  if (block.length >= FEWEST && ofBlock < BY_CHANCE)
    found.push(fault(sheet, loads, block.again, block.length, block.again - block.at, ofBlock));
  return found;
}

function fault(
  sheet: string,
  loads: readonly Load[],
  at: number,
  length: number,
  after: number,
  byChance: number,
): Fault {
  const copies = loads.slice(at, at + length);
  const others = loads.filter((load) => !copies.includes(load));
  return {
    code: "rows-copied",
    evidence: { length, after, byChance },
    sheet,
    rows: rowNumbers(copies),
    yieldNow: pooled(loads.map(kgOf)),
    yieldThen: pooled(others.map(kgOf)),
    // loads that are alike one after the other may all have happened; a block is set aside as a whole or not at all
    answers: after === 1 ? null : { setAside: copies.map(({ row }) => `${sheet}!${row.row}`) },
  };
}

/** How often two loads of this log say the same, without so many pairs (counted both ways) that are under suspicion. */
function alike(said: readonly string[], suspected: number): number {
  const counts = new Map<string, number>();
  for (const one of said) counts.set(one, (counts.get(one) ?? 0) + 1);
  let pairs = -suspected;
  for (const count of counts.values()) pairs += count * (count - 1);
  return Math.max(pairs, 1) / (said.length * (said.length - 1));
}

function longestRun(said: readonly string[]): { readonly at: number; readonly length: number } {
  let best = { at: 0, length: 0 };
  let from = 0;
  for (let at = 1; at <= said.length; at++) {
    if (at < said.length && said[at] === said[from]) continue;
    if (at - from > best.length) best = { at: from, length: at - from };
    from = at;
  }
  return best;
}

/** The longest block that comes again without overlapping itself and is no run of one row. */
function longestBlock(said: readonly string[]): {
  readonly at: number;
  readonly again: number;
  readonly length: number;
} {
  let best = { at: 0, again: 0, length: 0 };
  // lengths[j]: how many rows up to row i - 1 are the same as those up to row j - 1
  let above = new Int32Array(said.length + 1);
  for (let i = 1; i <= said.length; i++) {
    const lengths = new Int32Array(said.length + 1);
    for (let j = i + 1; j <= said.length; j++) {
      if (said[i - 1] !== said[j - 1]) continue;
      const length = Math.min((above[j - 1] ?? 0) + 1, j - i);
      lengths[j] = length;
      if (length > best.length && new Set(said.slice(i - length, i)).size > 1)
        best = { at: i - length, again: j - length, length };
    }
    above = lengths;
  }
  return best;
}
