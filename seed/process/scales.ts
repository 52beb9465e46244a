import type { Scale } from "../site";

/** kg in one unit; the pound by the agreement of 1959. */
const KG: Readonly<Record<Scale["unit"], number>> = { kg: 1, g: 0.001, lb: 0.45359237 };

export function scaleKg(unit: Scale["unit"]): number {
  return KG[unit];
}

/** What the scale shows for so many of its steps: 132 steps of 0.05 kg are "6.60". */
export function shown(steps: number, step: number, places: number, mark: "." | "," = "."): string {
  return (steps * step).toFixed(places).replace(".", mark);
}
