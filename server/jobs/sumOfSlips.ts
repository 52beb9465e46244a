import type { SlipPart } from "./slipPart";

/** So many rows that wait for an answer are listed on the slip of a large file; the others are found with its rows. */
const MOST_LISTED = 1_000;

/** One sending slip out of those of a file's parts. */
export function sumOfSlips(slips: readonly SlipPart[]): SlipPart {
  const sum = (of: (slip: SlipPart) => number) => slips.reduce((total, slip) => total + of(slip), 0);
  const known = (of: (slip: SlipPart) => number | null) =>
    slips.some((slip) => of(slip) !== null) ? sum((slip) => of(slip) ?? 0) : null;
  return {
    rows: {
      rows: sum(({ rows }) => rows.rows),
      counted: sum(({ rows }) => rows.counted),
      held: sum(({ rows }) => rows.held),
      setAside: sum(({ rows }) => rows.setAside),
    },
    batches: {
      new: sum(({ batches }) => batches.new),
      changed: sum(({ batches }) => batches.changed),
      same: sum(({ batches }) => batches.same),
      joined: sum(({ batches }) => batches.joined),
      vanished: sum(({ batches }) => batches.vanished),
      withdrawn: sum(({ batches }) => batches.withdrawn ?? 0),
    },
    months: [...new Set(slips.flatMap(({ months }) => months))].sort(),
    freshKg: known(({ freshKg }) => freshKg),
    driedKg: known(({ driedKg }) => driedKg),
    driedToCome: sum(({ driedToCome }) => driedToCome),
    held: slips.flatMap(({ held }) => held).slice(0, MOST_LISTED),
    totals: slips.flatMap(({ totals }) => totals),
    // a question of the whole file is asked by several parts
    open: slips.reduce((most, { open = 0 }) => Math.max(most, open), 0),
  };
}
