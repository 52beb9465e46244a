import type { Fuel, FuelSpan, FuelUnit, HowKnown } from "#server/terms/fuel";
import { spanInWords } from "./days";

export const FUEL_WORDS: Record<Fuel, string> = {
  lpg: "gas (LPG)",
  "natural-gas": "natural gas",
  biogas: "biogas",
  firewood: "firewood",
  charcoal: "charcoal",
  "other-biomass": "husks and other plant waste",
  kerosene: "kerosene",
  diesel: "diesel",
  petrol: "petrol",
  electricity: "electricity",
};

export const HOW_WORDS: Record<HowKnown, string> = {
  weighed: "weighed",
  metered: "by meter",
  "cylinder-changed": "by cylinders changed",
  "cylinder-count": "by counting cylinders",
  bought: "as bought",
  estimated: "estimated",
  pending: "still open",
};

const UNITS: Record<FuelUnit, string> = { kg: "kg", kWh: "kWh", L: "litres", m3: "m³" };

/** "4.9 kg (4.5 to 5.4)". */
export function amountInWords(low: number | null, best: number | null, high: number | null, unit: FuelUnit): string {
  if (best === null) return "amount not known yet";
  const show = (value: number) => value.toLocaleString("en-GB", { maximumFractionDigits: 1 });
  const range =
    low === null || high === null || (low === best && high === best) ? "" : ` (${show(low)} to ${show(high)})`;
  return `${show(best)} ${UNITS[unit]}${range}`;
}

/** A span of fuel in one line. */
export function fuelSpanInWords({ from, to, fuel, unit, how, low, best, high, shared }: FuelSpan): string {
  const when = how === "pending" ? `from ${spanInWords(from, from)}, still open` : spanInWords(from, to);
  return `${FUEL_WORDS[fuel]}, ${when}: ${amountInWords(low, best, high, unit)}, ${HOW_WORDS[how]}${shared ? ", shared with the kitchen" : ""}`;
}
