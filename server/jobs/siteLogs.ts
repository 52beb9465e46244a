import { layoutsNear } from "#db/queries/signals";
import type { Tx } from "#db/store";
import { monthOf, plusMonths } from "#server/terms/days";
import { type SignalRow, TOGETHER } from "./watchOrder";

/** How a log that counts was laid out, told by its last row that counts. */
export interface SiteLog {
  readonly site: number;
  readonly file: string;
  /** first and last day it speaks of */
  readonly from: string;
  readonly to: string;
  /** what stands in which column: "A day", "C fresh" */
  readonly columns: string;
  /** how many of the log's own units of fresh weight are a kilogram: 1 for kg, 1000 for g; null where it cannot be told */
  readonly perKg: number | null;
}

/** A log's layout is laid beside those of so many months before the change. */
const BEFORE_MONTHS = 4;

/**
 * The logs around the changes that some signals tell of, of their sites alone, in the order of their days. Only signals that
 * stand are asked about, so only for them is it looked what changed in the logs.
 */
export async function siteLogs(tx: Tx, rows: readonly SignalRow[], size: number): Promise<SiteLog[]> {
  const spans = new Map<number, { from: string; to: string }>();
  for (const { site, sinceFrom, raisedOn, state } of rows) {
    if (site === TOGETHER || state !== "stands") continue;
    const from = `${plusMonths(monthOf(sinceFrom), -BEFORE_MONTHS)}-01`;
    const before = spans.get(site);
    spans.set(site, {
      from: before !== undefined && before.from < from ? before.from : from,
      to: before !== undefined && before.to > raisedOn ? before.to : raisedOn,
    });
  }
  const asked = [...spans].map(([site, span]) => ({ site, ...span }));
  const found = asked.length === 0 ? [] : await layoutsNear(tx, asked, size);
  return found.map(({ cells, freshKg, ...log }) => {
    const fresh = Number.parseFloat(cells.find(({ meaning }) => meaning === "fresh")?.text.replace(",", ".") ?? "");
    return {
      ...log,
      columns: cells.map(({ column, meaning }) => `${column} ${meaning}`).join(", "),
      perKg: freshKg !== null && freshKg > 0 && fresh > 0 ? fresh / freshKg : null,
    };
  });
}
