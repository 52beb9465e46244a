import { type Batch, inOrderOfContent, type Quantity } from "#server/terms/batch";
import { monthOf } from "#server/terms/days";
import type { Column, TableOf, Value } from "../table";
import { type Standing, saidLast, TRACED, type WrittenAt, whereWritten } from "../whereItStands";

/** A batch as known then, the record that said so, and the rows that it was read from. */
export interface BatchItem {
  readonly site: string;
  readonly batch: Batch;
  readonly ledgerIndex: number;
  readonly standings: readonly Standing[];
}

type BatchColumn = Column & { readonly of: (item: BatchItem) => Value };

/** Whether a batch counts for the dry yield: it has both weights. */
export function countsForYield({ fresh, dried }: Pick<Batch, "fresh" | "dried">): boolean {
  return fresh !== null && dried !== null;
}

/** What the figures of a site, a month and a method are called in one text that no spreadsheet takes for a date. */
function figuresOf({ site, batch }: BatchItem): string {
  return `${site} ${monthOf(batch.day)} ${batch.method}`;
}

export function inOrderOfTables(a: BatchItem, b: BatchItem): number {
  return order(a.site, b.site) || inOrderOfContent(a.batch, b.batch) || order(a.batch.id, b.batch.id);
}

export const batchesTable: TableOf<BatchItem> = {
  name: "batches",
  says: "Every batch of the months asked for as known then, also those that no figure could use, and where its weights were written.",
  columns: [
    text("site", "code of the site", ({ site }) => site),
    {
      name: "day",
      kind: "day",
      unit: null,
      says: "roasting day, in the site's time zone",
      of: ({ batch }) => batch.day,
    },
    text("month", "its month", ({ batch }) => monthOf(batch.day)),
    text("method", "way of drying", ({ batch }) => batch.method),
    text("belongs_to", "site, month and method: the figures that it belongs to", figuresOf),
    text("number", "number that the site gave it", ({ batch }) => batch.number),
    text("pan", "pan", ({ batch }) => batch.pan),
    text("harvest", "harvest code", ({ batch }) => batch.harvest),
    whole("start", "minutes after midnight", "start on the fire", ({ batch }) => batch.startMinute),
    whole("end", "minutes after midnight", "end on the fire", ({ batch }) => batch.endMinute),
    text("grain", "what its row stands for: load, pan-day, site-day or set", ({ batch }) => batch.grain),
    whole("loads", "loads", "loads that it stands for", ({ batch }) => batch.loads),
    exact("fresh_kg", "kg", "fresh in", ({ batch }) => batch.fresh),
    exact("dried_kg", "kg", "dried out", ({ batch }) => batch.dried),
    yesNo("dried_to_come", "the dried weight is still to come", ({ batch }) => batch.driedToCome),
    exact("minutes", "pan-minutes", "time on the fire", ({ batch }) => batch.minutes),
    exact("rejects_kg", "kg", "rejects", ({ batch }) => batch.rejects),
    exact("sand_kg", "kg", "sand in the pan", ({ batch }) => batch.sandKg),
    whole("sand_cycle", null, "which load on this sand it was", ({ batch }) => batch.sandCycle),
    yesNo("new_sand", "new sand, as logged", ({ batch }) => batch.newSand),
    text("crush_test", "crush test, as logged", ({ batch }) => batch.crushTest),
    text("crisp", "puffed and crisp, as logged", ({ batch }) => batch.crisp),
    text("colour", "colour, as logged", ({ batch }) => batch.colour),
    exact("moisture_reading", "share", "reading of a moisture meter", ({ batch }) => batch.moistureReading),
    exact("water_activity", null, "reading of a water-activity meter", ({ batch }) => batch.waterActivity),
    yesNo("in_time", "its first row was here by the day due", ({ batch }) => batch.inTime),
    whole("included", null, "1: has both weights and counts for the dry yield; 0: has not", ({ batch }) =>
      Number(countsForYield(batch)),
    ),
    text("log", "sending slip of the log that said it last", (item) => saidLast(item.standings)?.log ?? null),
    text("log_sha256", "SHA-256 of that log", (item) => saidLast(item.standings)?.sha256 ?? null),
    text("sheet", "sheet in that log", (item) => saidLast(item.standings)?.sheet ?? null),
    whole("row", null, "row in that sheet, from 1", (item) => saidLast(item.standings)?.row ?? null),
    ...TRACED.flatMap(written),
    whole("rows", "rows", "rows in all logs that speak of it", ({ standings }) => standings.length),
    text("batch", "its permanent id", ({ batch }) => batch.id),
    whole("ledger_index", null, "record that last changed it", ({ ledgerIndex }) => ledgerIndex),
  ],
};

/** Where a weight was written: its own log and row, since a dried weight may come later and from elsewhere. */
function written(meaning: (typeof TRACED)[number]): BatchColumn[] {
  const at = (item: BatchItem): WrittenAt | null => whereWritten(item.standings)[meaning];
  return [
    text(
      `${meaning}_log`,
      `sending slip of the log with the cell of ${meaning}`,
      (item) => at(item)?.standing.log ?? null,
    ),
    text(`${meaning}_sheet`, `sheet of the cell of ${meaning}`, (item) => at(item)?.standing.sheet ?? null),
    whole(`${meaning}_row`, null, `row of the cell of ${meaning}`, (item) => at(item)?.standing.row ?? null),
    text(`${meaning}_column`, `column of the cell of ${meaning}`, (item) => at(item)?.column ?? null),
    text(`${meaning}_text`, `the cell of ${meaning} as it was written`, (item) => at(item)?.text ?? null),
  ];
}

function text(name: string, says: string, of: BatchColumn["of"]): BatchColumn {
  return { name, kind: "text", unit: null, says, of };
}

function whole(name: string, unit: string | null, says: string, of: BatchColumn["of"]): BatchColumn {
  return { name, kind: "whole", unit, says, of };
}

function yesNo(name: string, says: string, of: BatchColumn["of"]): BatchColumn {
  return { name, kind: "yes-no", unit: null, says: `${says}; empty where the log does not say`, of };
}

function exact(name: string, unit: string | null, says: string, of: (item: BatchItem) => Quantity | null): BatchColumn {
  return {
    name,
    kind: "number",
    unit,
    says: `${says}; the exact decimal in this unit`,
    of: (item) => of(item)?.exact ?? null,
  };
}

function order(a: string, b: string): number {
  return a < b ? -1 : Number(a > b);
}
