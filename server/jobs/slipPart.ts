import type { Quantity } from "#server/terms/batch";
import { monthOf } from "#server/terms/days";
import { holds } from "#server/terms/problem";
import type { Reading, RowRead } from "#server/terms/row";
import type { Slip } from "#server/terms/slip";
import type { Verdict } from "./planBatches";
import type { SitePlan } from "./planSite";

export type SlipPart = Omit<Slip, "code" | "file" | "site" | "sha256" | "bytes" | "arrivedAt" | "ledgerIndex">;

/** What a sending slip says of some rows, now that it is known what became of them. */
export function slipPart(
  rows: readonly RowRead[],
  plans: readonly SitePlan[],
  reading: Pick<Reading, "totals">,
): SlipPart {
  const fates = { counted: 0, held: 0, "set-aside": 0 };
  const held: SlipPart["held"][number][] = [];
  const months = new Set<string>();
  let before = "";
  let freshKg: number | null = null;
  let driedKg: number | null = null;
  let driedToCome = 0;
  for (const { fate, batch, reasons } of rows) {
    fates[fate]++;
    if (fate === "held") for (const { at, code, text } of reasons) if (holds(code)) held.push({ ...at, code, text });
    if (fate !== "counted" || batch === null) continue;
    if (batch.day !== before) months.add(monthOf(batch.day));
    before = batch.day;
    freshKg = plus(freshKg, batch.fresh);
    driedKg = plus(driedKg, batch.dried);
    if (batch.driedToCome) driedToCome++;
  }
  const of: Record<Verdict, number> = { new: 0, changed: 0, same: 0, joined: 0, doubtful: 0, "no-load": 0 };
  let vanished = 0;
  let withdrawn = 0;
  for (const { batches } of plans) {
    for (const verdict of batches.verdicts.values()) of[verdict]++;
    vanished += batches.vanished.length;
    for (const { why } of batches.out.values()) if (why === "not-sent-again") withdrawn++;
  }
  return {
    rows: { rows: rows.length, counted: fates.counted, held: fates.held, setAside: fates["set-aside"] },
    batches: {
      new: of.new,
      changed: of.changed,
      same: of.same,
      joined: of.joined,
      vanished: vanished - withdrawn,
      withdrawn,
    },
    months: [...months].sort(),
    freshKg,
    driedKg,
    driedToCome,
    held,
    totals: reading.totals,
  };
}

/** null as long as nothing was said. */
function plus(total: number | null, weight: Quantity | null): number | null {
  return weight === null ? total : (total ?? 0) + weight.value;
}
