import { asPerson } from "#db/asPerson";
import { batchCounts, publicationsWithin } from "#db/queries/evidence";
import { csvHead, csvRows } from "#server/evidence/csv";
import type { Table } from "#server/evidence/table";
import { columnsExplained, TABLE_NAMES, TABLES, type TableName } from "#server/evidence/tables";
import { MEASURES } from "#server/measures/siteFigures";
import { monthsBetween } from "#server/terms/days";
import type { AsKnownOn } from "#server/terms/figure";
import {
  type AskedTables,
  answerItems,
  entryItems,
  factItems,
  fuelWithin,
  originalItems,
  partsOf,
  type Sentence,
  scopeOf,
} from "./evidenceParts";
import { signalAnswerItems, signalItems } from "./evidenceSignals";
import type { Corridor } from "./record";
import { workbookOf } from "./workbook";

/** A table as CSV, piece by piece. */
export async function* csvOf(
  corridor: Corridor,
  asked: AskedTables,
  name: TableName,
  sentence: Sentence,
): AsyncGenerator<string> {
  const { columns } = shapeOf(name);
  yield csvHead(columns);
  for await (const { rows } of partsOf(corridor, asked, name, sentence))
    if (rows.length > 0) yield csvRows(columns, rows);
}

/** More cells than this are not put into one workbook: while so many are written, other pages wait for half a second. */
const MOST_CELLS = 600_000;

/** All tables but the single cells in one workbook, or null where that would be too large. */
export async function evidenceWorkbook(
  corridor: Corridor,
  asked: AskedTables,
  sentence: Sentence,
): Promise<Uint8Array | null> {
  const tables: Table[] = [];
  let cells = 0;
  for (const name of TABLE_NAMES) {
    if (name === "cells") continue;
    const rows: (readonly Table["rows"][number][])[] = [];
    for await (const part of partsOf(corridor, asked, name, sentence)) {
      rows.push(part.rows);
      cells += part.rows.length * part.columns.length;
      if (cells > MOST_CELLS) return null;
    }
    tables.push({ ...shapeOf(name), rows: rows.flat() });
  }
  return workbookOf(tables, asked);
}

/** What the tables of a scope will hold, and that it adds up. */
export interface Account {
  readonly known: AsKnownOn;
  /** `lines` null: not counted beforehand */
  readonly tables: readonly { readonly name: TableName; readonly says: string; readonly lines: number | null }[];
  readonly logs: { readonly all: number; readonly notCounted: number; readonly takenBack: number };
  /** rows of the logs that stand; `onSlips` what their sending slips say, null where there is one that may not be seen whole */
  readonly rows: {
    readonly rows: number;
    readonly counted: number;
    readonly held: number;
    readonly setAside: number;
    readonly onSlips: number | null;
    readonly takenBack: number;
  };
  /** `here` and `usable` by the sums that figures rest on, `listed` counted one by one */
  readonly batches: { readonly listed: number; readonly here: number; readonly usable: number };
}

/** Counts without reading a single batch into memory; what the tables then hold is read by other queries. */
export async function accountOf(corridor: Corridor, asked: AskedTables): Promise<Account> {
  return asPerson(corridor, async (tx) => {
    const scope = scopeOf(asked);
    const originals = await originalItems(tx, asked);
    const counts = await batchCounts(tx, scope);
    const facts = (await factItems(tx, asked)).length;
    let spans = 0;
    let entries = 0;
    let published = 0;
    for (const site of asked.sites) {
      const fuel = await fuelWithin(tx, asked, site);
      spans += fuel.spans.length;
      entries += (await entryItems(tx, asked, site, fuel)).length;
      published += (await publicationsWithin(tx, site.id, scope)).length;
    }
    const add = <T>(items: readonly T[], of: (item: T) => number) => items.reduce((sum, item) => sum + of(item), 0);
    const months = asked.sites.length * monthsBetween(asked.from, asked.to).length;
    const standing = originals.filter(({ state }) => state === "counted");
    const takenBack = originals.filter(({ state }) => state === "withdrawn");
    const listed = add(counts, (count) => count.listed);
    const lines: Record<TableName, number | null> = {
      figures: (months + add(counts, ({ methods }) => Math.max(0, methods - 1))) * MEASURES.length,
      batches: listed,
      cells: null,
      "rows-not-counted": add(originals, ({ held, setAside }) => held + setAside),
      originals: originals.length,
      answers: (await answerItems(tx, asked, originals)).length,
      "fuel-spans": spans,
      "fuel-entries": entries,
      facts,
      publications: published,
      signals: (await signalItems(tx, asked)).length,
      "signal-answers": (await signalAnswerItems(tx, asked)).length,
      columns: columnsExplained().rows.length,
    };
    return {
      known: asked.known,
      tables: TABLE_NAMES.map((name) => ({ name, says: shapeOf(name).says, lines: lines[name] })),
      logs: {
        all: originals.length,
        notCounted: originals.length - standing.length - takenBack.length,
        takenBack: takenBack.length,
      },
      rows: {
        rows: add(standing, ({ rows }) => rows),
        counted: add(standing, ({ counted }) => counted),
        held: add(standing, ({ held }) => held),
        setAside: add(standing, ({ setAside }) => setAside),
        onSlips: standing.some(({ rowsOnSlip }) => rowsOnSlip === null)
          ? null
          : add(standing, ({ rowsOnSlip }) => rowsOnSlip ?? 0),
        takenBack: add(takenBack, ({ rows }) => rows),
      },
      batches: { listed, here: add(counts, ({ here }) => here), usable: add(counts, ({ usable }) => usable) },
    };
  });
}

function shapeOf(name: TableName): Pick<Table, "name" | "says" | "columns"> {
  return name === "columns" ? columnsExplained() : TABLES[name];
}
