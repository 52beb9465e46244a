import type { MatchRow } from "#server/intake/match/matchRows";
import { toldFirst } from "#server/intake/match/tell";
import type { Batch, BatchWritten } from "#server/terms/batch";
import type { RowRead } from "#server/terms/row";
import { type BatchInput, keyOf } from "./planBatches";

/** A row that tells a load, with the batch that it becomes where none is found for it. */
export interface Load extends MatchRow {
  readonly row: RowRead;
  readonly written: BatchWritten;
  readonly batch: Batch;
  /** the batch that the row was read into before */
  readonly linkedTo: string | null;
}

/** The rows that tell loads. `linked` says which batch a row was read into before. */
export function loadsOf(input: BatchInput, linked: (key: string) => string | null): Load[] {
  const are = new Map(Object.entries(input.are));
  const loads: Load[] = [];
  for (const row of input.rows) {
    if (row.batch === null || row.driedOnly) continue;
    const key = keyOf(row);
    loads.push(load(row, row.batch, key, linked(key), are.get(key), input));
  }
  return loads;
}

function load(
  row: RowRead,
  written: BatchWritten,
  key: string,
  linkedTo: string | null,
  is: string | undefined,
  input: BatchInput,
): Load {
  const { day, method } = written;
  const batch = toldFirst(written, {
    id: input.newId(),
    site: input.site,
    inTime: input.inTime(day),
    method: method ?? input.methodOn(day),
  });
  const found = { key, row, written, batch, linkedTo, driedOnly: false };
  return is === undefined ? found : { ...found, is };
}
