import { placeOf, type Series } from "#server/drift/series";
import { dayNumber } from "#server/terms/days";
import type { Signal } from "#server/terms/signal";

/** The yield of a site is that of so many last days. */
const LAST_DAYS = 60;

/**
 * What a signal comes to over 30 days in kg dried, so that signals of all kinds can be ordered; null where it cannot be told.
 *
 * Yield: the kg dried more or less. Throughput: the kg fresh more or less at the site's yield. Fuel: as many kg dried as the
 * same heat would dry at the level before. No money, and no judgement: a tare left in costs nothing but trust.
 *
 * signalCost({ measure: "throughput", per30Days: -60 kg fresh … }, yield 0.32) // 19.2 kg dried
 */
export function signalCost(
  { measure, per30Days, before, raisedOn }: Pick<Signal, "measure" | "per30Days" | "before" | "raisedOn">,
  dryYield: Series | undefined,
): number | null {
  if (measure === "dry-yield") return Math.abs(per30Days);
  const share = dryYield === undefined ? null : yieldUntil(dryYield, raisedOn);
  if (share === null || share >= 1) return null;
  if (measure === "throughput") return Math.abs(per30Days) * share;
  if (measure !== "fuel-intensity") return null;
  const mjPerKgDried = (before * (1 - share)) / share;
  return Math.abs(per30Days) / mjPerKgDried;
}

function yieldUntil({ day, value, mass }: Series, on: string): number | null {
  const end = placeOf(day, dayNumber(on) + 1);
  let [dried, fresh] = [0, 0];
  for (let i = Math.max(0, end - LAST_DAYS); i < end; i++) {
    dried += Math.exp(value[i]!) * mass[i]!;
    fresh += mass[i]!;
  }
  return fresh > 0 ? dried / fresh : null;
}
