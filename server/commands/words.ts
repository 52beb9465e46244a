import { reasonInWords } from "#app/_words/problems";
import { slipLine } from "#app/_words/slip";
import type { Slip } from "#server/terms/slip";

/** A sending slip for a person at the keyboard. */
export function slipInWords(slip: Slip): string {
  const { rows, batches } = slip;
  const lines = [
    slipLine(slip),
    `  ${rows.rows} rows = ${rows.counted} counted + ${rows.held} held + ${rows.setAside} set aside`,
    `  batches: ${batches.new} new, ${batches.changed} changed, ${batches.same} as before, ${batches.joined} dried weights joined, ${batches.vanished} not in this log and kept`,
    ...slip.held.map((row) => `  ${row.sheet} row ${row.row}${row.column ?? ""}: ${reasonInWords(row)}`),
    `  record ${slip.ledgerIndex}, SHA-256 ${slip.sha256}`,
  ];
  return `${lines.join("\n")}\n`;
}

/** How far a large log is. */
export function rowsStored(rows: number): string {
  return `${rows} rows are stored`;
}

export { reasonInWords, refusalInWords } from "#app/_words/problems";
