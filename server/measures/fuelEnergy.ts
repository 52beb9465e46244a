import { FUEL_FACTORS, MJ_PER_KWH, WOOD } from "#server/terms/factors";
import { type Fact, inForce } from "#server/terms/facts";
import type { FuelSpan, FuelUnit } from "#server/terms/fuel";

type Logged = Pick<FuelSpan, "fuel" | "unit" | "to">;

/**
 * MJ in one unit of a fuel as it was logged, on net calorific value.
 *
 * A dated fact "fuel-factor" stands before the published value. It holds per kg (litres are turned into kg by their
 * density) and per m³ for gases logged so. A kilowatt-hour is 3.6 MJ whatever is declared. Null when the unit cannot be
 * turned into heat: firewood in m³ or litres, for one, must be weighed.
 * Source: ipcc-2006-ncv, Table 1.2.
 *
 * mjPerUnit(a kg of LPG) // 47.3
 */
export function mjPerUnit(span: Logged, facts: readonly Fact[]): number | null {
  if (span.unit === "kWh") return span.fuel === "electricity" ? MJ_PER_KWH.value : null;
  if (span.fuel === "electricity") return null;
  const factor = FUEL_FACTORS[span.fuel];
  const declared = inForce(facts, "fuel-factor", span.to, span.fuel)?.mjPerUnit;
  if (span.unit === "m3") return factor.mjPerM3 && (declared ?? factor.mjPerM3.value);
  const kg = kgPerUnit(span.fuel, span.unit);
  const mj = declared ?? factor.mjPerKg?.value ?? null;
  return kg === null || mj === null ? null : kg * mj;
}

/** Kg of CO2 from one unit of a fuel as it was logged; null when no factor is set or the unit has no heat. */
export function co2KgPerUnit(span: Logged, facts: readonly Fact[]): number | null {
  const declared = inForce(facts, "fuel-factor", span.to, span.fuel)?.co2KgPerUnit;
  if (declared !== undefined) {
    if (span.unit === "kWh" || span.unit === "m3") return declared;
    const kg = kgPerUnit(span.fuel, span.unit);
    return kg === null ? null : kg * declared;
  }
  const mj = mjPerUnit(span, facts);
  const perTj = FUEL_FACTORS[span.fuel].co2KgPerTj;
  return mj === null || perTj === null ? null : (mj * perTj.value) / 1e6;
}

function kgPerUnit(fuel: FuelSpan["fuel"], unit: FuelUnit): number | null {
  if (unit === "kg") return 1;
  return unit === "L" ? (FUEL_FACTORS[fuel].kgPerL?.value ?? null) : null;
}

/**
 * Net heat of wood by its moisture (share of the whole), MJ per kg: what the fact "fuel-factor" may be set to.
 *
 * Source: wood-fuels-handbook.
 *
 * woodMjPerKg(0.2) // 19 · 0.8 − 2.44 · 0.2 = 14.712
 */
export function woodMjPerKg(moistureShare: number): number {
  return WOOD.dryMjPerKg.value * (1 - moistureShare) - WOOD.waterMjPerKg.value * moistureShare;
}

/**
 * Mean power of the fire over some pan-hours, kW.
 *
 * firepowerKw(4 kg of LPG, 6.5 h) // 189.2 / (6.5 · 3.6) = 8.09
 */
export function firepowerKw(fuelMj: number, panHours: number): number {
  return fuelMj / (panHours * MJ_PER_KWH.value);
}
