/** Precision, recall and F1 of what was read against what should have been read, as multisets. */
export interface Agreement {
  readonly precision: number;
  readonly recall: number;
  readonly f1: number;
}

/**
 * The ten measures of one file: success; precision, recall and F1 of the heading, of the records and of the cells.
 *
 * Source: Vitagliano, Hameed, Jiang, Reisener, Wu, Naumann: "Pollock: A Data Loading Benchmark", PVLDB 16 (2023),
 * section on evaluation measures. Texts are compared without case, numbers by value. As there, precision divides by what
 * should have been read and recall by what was read.
 */
export function measuresOf(wanted: readonly string[][], read: readonly string[][]): number[] {
  if (wanted.length === 0) return new Array(10).fill(1);
  const headings = agreement(wanted[0]!.map(comparable), (read[0] ?? []).map(comparable));
  const records = agreement(wanted.slice(1).map(whole), read.slice(1).map(whole));
  const cells = agreement(wanted.flat().map(comparable), read.flat().map(comparable));
  return [1, ...[headings, records, cells].flatMap(({ precision, recall, f1 }) => [precision, recall, f1])];
}

function agreement(wanted: readonly string[], read: readonly string[]): Agreement {
  if (wanted.length === 0) return { precision: 1, recall: 1, f1: 1 };
  const left = new Map<string, number>();
  for (const item of wanted) left.set(item, (left.get(item) ?? 0) + 1);
  let common = 0;
  for (const item of read) {
    const times = left.get(item) ?? 0;
    if (times === 0) continue;
    left.set(item, times - 1);
    common++;
  }
  if (common === 0) return { precision: 0, recall: 0, f1: 0 };
  const precision = common / wanted.length;
  const recall = common / read.length;
  return { precision, recall, f1: (2 * precision * recall) / (precision + recall) };
}

function whole(record: readonly string[]): string {
  return record.map(comparable).join("");
}

function comparable(cell: string): string {
  const text = cell.trim();
  const number = /^[-+]?[\d.]+(?:e[-+]?\d+)?$/i.test(text) ? Number(text) : Number.NaN;
  return Number.isFinite(number) ? String(number) : cell.toLowerCase();
}
