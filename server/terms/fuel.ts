import type { Quantity } from "./batch";

export const FUELS = [
  "lpg",
  "natural-gas",
  "biogas",
  "firewood",
  "charcoal",
  "other-biomass",
  "kerosene",
  "diesel",
  "petrol",
  "electricity",
] as const;

export type Fuel = (typeof FUELS)[number];

/** Fuels are logged by mass, electricity in kWh, some liquids in litres. Containers need a declared weight. */
export type FuelUnit = "kg" | "kWh" | "L" | "m3";

/** How an amount of fuel is known. In this order the better one wins where two speak of the same days. */
export const HOW_KNOWN = [
  "weighed",
  "metered",
  "cylinder-changed",
  "cylinder-count",
  "bought",
  "estimated",
  "pending",
] as const;
export type HowKnown = (typeof HOW_KNOWN)[number];

/** Fuel as one row of a log says it for its day: an amount, a cylinder put on, or a cylinder's gross weight before and after. */
export interface FuelWritten {
  readonly fuel: Fuel;
  readonly column: string;
  readonly said:
    | { readonly kind: "amount"; readonly amount: Quantity; readonly unit: FuelUnit }
    | { readonly kind: "cylinder-change"; readonly count: number }
    | { readonly kind: "gross"; readonly before: Quantity | null; readonly after: Quantity | null };
}

/**
 * Fuel burned from the morning of `from` to the evening of `to`.
 *
 * `low`, `best` and `high` in the fuel's own unit: what it was at least, most likely and at most.
 * A pending span has begun and not ended: it has no amount yet.
 */
export interface FuelSpan {
  readonly site: number;
  readonly from: string;
  readonly to: string;
  readonly fuel: Fuel;
  readonly unit: FuelUnit;
  readonly how: HowKnown;
  readonly low: number | null;
  readonly best: number | null;
  readonly high: number | null;
  /** the kitchen cooks on it too: an upper bound, kept out of comparison and drift */
  readonly shared: boolean;
}

/** A span that somebody declared, beside what rows of logs say. */
export interface FuelDeclared {
  readonly kind: "span";
  readonly to: string;
  readonly how: HowKnown;
  readonly unit: FuelUnit;
  readonly low: number | null;
  readonly best: number | null;
  readonly high: number | null;
}
