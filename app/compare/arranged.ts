import type { SignalTold } from "#server/api/signals";
import type { Compared } from "#server/compare/entry";
import type { MonthCompared, SiteRow } from "#server/jobs/comparison";
import type { Watched } from "#server/terms/signal";
import { columnScale } from "../_charts/columnScale";
import type { Scale } from "../_charts/scale";
import { METHOD_WORDS } from "../_words/methods";
import type { Asked } from "./asked";

/** The measures shown, each a column. */
export const COLUMNS = ["record-usable", "dry-yield", "fuel-per-driven-off", "fresh-per-pan-hour"] as const;

const WATCHED_IN: Readonly<Partial<Record<Compared, Watched>>> = {
  "dry-yield": "dry-yield",
  "fuel-per-driven-off": "fuel-intensity",
  "fresh-per-pan-hour": "throughput",
};

/** The signal that stands in a cell, or none. */
export function signalOf(row: SiteRow, measure: Compared, signals: readonly SignalTold[]): SignalTold | undefined {
  return signals.find(
    (one) => one.site === row.site && one.method === row.method && one.measure === WATCHED_IN[measure],
  );
}

/** True for a site that was not open in the month: it is named below the table, and takes no row. */
export function isNotOpen({ cells }: SiteRow): boolean {
  const { figure } = cells["record-usable"];
  return !figure.known && figure.why === "not-open" && !cells["dry-yield"].figure.known;
}

const inOrder = new Intl.Collator("en", { numeric: true }).compare;

/** The rows that the address asks for, in its order; by name within what is equal. */
export function arranged(rows: readonly SiteRow[], signals: readonly SignalTold[], { dryer, sort }: Asked): SiteRow[] {
  const changed = new Set(signals.filter(({ together }) => !together).map(({ site }) => site));
  const usable = ({ cells }: SiteRow) => {
    const { figure } = cells["record-usable"];
    return figure.known ? figure.value : 2; // a record of which nothing was owed comes last
  };
  const heat = ({ method, fuel }: SiteRow) => `${method === null ? "~" : METHOD_WORDS[method]} ${fuel ?? "~"}`;
  return rows
    .filter((row) => !isNotOpen(row) && (dryer === null || row.method === dryer))
    .sort((a, b) => {
      const asked =
        sort === "changed"
          ? Number(changed.has(b.site)) - Number(changed.has(a.site))
          : sort === "record"
            ? usable(a) - usable(b)
            : sort === "dryer"
              ? inOrder(heat(a), heat(b))
              : 0;
      return asked || inOrder(a.name, b.name) || inOrder(a.method ?? "", b.method ?? "");
    });
}

/** The scale of each column over the rows that are shown, with what is drawn on it. */
export function scalesOf(rows: readonly SiteRow[], compared: MonthCompared): Record<Compared, Scale | null> {
  const scale = (measure: Compared) =>
    columnScale(
      rows.map(({ cells }) => ({ figure: cells[measure].figure, hollow: cells[measure].little !== null })),
      rows.flatMap(({ cells, targets }) => {
        const band = compared.peers[cells[measure].peers ?? -1]?.middle;
        const target = targets[measure]?.value;
        return [...(band == null ? [] : [band.low, band.high]), ...(target === undefined ? [] : [target])];
      }),
    );
  const fuel = scale("fuel-per-driven-off");
  return {
    "dry-yield": scale("dry-yield"),
    "fuel-per-driven-off": fuel && { ...fuel, low: Math.min(fuel.low, compared.floorMjPerKg * 0.9) },
    "fresh-per-pan-hour": scale("fresh-per-pan-hour"),
    "minutes-per-kg": scale("minutes-per-kg"),
    "record-usable": { low: 0, high: 1.04 },
  };
}
