import { sumOf } from "#server/statistics/sum";
import type { Fact } from "#server/terms/facts";
import { inForce } from "#server/terms/facts";
import type { Fuel, FuelSpan, FuelUnit } from "#server/terms/fuel";

/** An amount of fuel that a row of a log gives for its day. */
export interface FuelAmount {
  readonly site: number;
  readonly day: string;
  readonly fuel: Fuel;
  readonly amount: number;
  readonly unit: FuelUnit;
}

/**
 * Spans of one day from amounts written in the rows of that day: added, since each row says what it burned.
 *
 * kg counts as weighed, kWh, litres and m³ as metered. Half a scale step a row is the error, where the step is declared.
 * Amounts are added in the order of size, so that the order of rows does not change a bit.
 *
 * amountSpans([0.4 kg and 0.5 kg of LPG on 2 June]) // 2–2 June: 0.9 kg
 */
export function amountSpans(amounts: readonly FuelAmount[], facts: readonly Fact[]): FuelSpan[] {
  const days = new Map<string, FuelAmount[]>();
  for (const amount of amounts) {
    const key = `${amount.day} ${amount.site} ${amount.fuel} ${amount.unit}`;
    const ofDay = days.get(key);
    if (ofDay) ofDay.push(amount);
    else days.set(key, [amount]);
  }
  const keys = [...days.keys()].sort();
  return keys.map((key) => {
    const rows = [...days.get(key)!].sort((a, b) => a.amount - b.amount);
    const { site, day, fuel, unit } = rows[0]!;
    const own = facts.filter((fact) => fact.site === site);
    const step = unit === "kg" ? (inForce(own, "scale-step", day, "fuel")?.kg ?? 0) : 0;
    const best = sumOf(rows, (row) => row.amount);
    const error = (rows.length * step) / 2;
    const how = unit === "kg" ? "weighed" : "metered";
    const shared = inForce(own, "kitchen-shares", day, fuel)?.shared ?? false;
    return {
      site,
      from: day,
      to: day,
      fuel,
      unit,
      how,
      low: Math.max(0, best - error),
      best,
      high: best + error,
      shared,
    };
  });
}
