import type { Meaning } from "#server/terms/row";

/** What a column holds, as a site lead would say it. */
export const MEANING_WORDS: Record<Meaning, string> = {
  "batch-number": "the number of the load",
  day: "the roasting day",
  site: "the site",
  harvest: "the harvest code",
  fresh: "fresh in",
  dried: "dried out",
  "dried-day": "the day of the dried weight",
  loads: "how many loads",
  start: "the start on the fire",
  end: "the end on the fire",
  minutes: "the time on the fire",
  method: "the way of drying",
  "fuel-type": "which fuel",
  "fuel-amount": "how much fuel",
  lpg: "gas (LPG)",
  "natural-gas": "natural gas",
  biogas: "biogas",
  firewood: "firewood",
  charcoal: "charcoal",
  "other-biomass": "husks and other plant waste as fuel",
  electricity: "electricity",
  kerosene: "kerosene",
  diesel: "diesel",
  petrol: "petrol",
  "cylinder-before": "the cylinder's weight before",
  "cylinder-after": "the cylinder's weight after",
  "cylinder-change": "cylinders changed",
  "sand-kg": "sand in the pan",
  "sand-cycle": "which load on this sand it was",
  "new-sand": "whether the sand was new",
  pan: "the pan",
  operator: "who roasted",
  labour: "working time",
  "moisture-in": "moisture before",
  "moisture-out": "the moisture reading after",
  "water-activity": "water activity",
  temperature: "temperature",
  "crush-test": "the crush test",
  crisp: "puffed and crisp",
  colour: "colour",
  rejects: "rejects",
  packed: "packed",
  "waste-in": "waste taken in",
  remarks: "remarks",
};

/** Meanings that a person may choose for a column, the usual ones first. */
export const CHOOSABLE: readonly Meaning[] = [
  "day",
  "batch-number",
  "fresh",
  "dried",
  "minutes",
  "start",
  "end",
  "loads",
  "pan",
  "harvest",
  "lpg",
  "firewood",
  "charcoal",
  "other-biomass",
  "kerosene",
  "electricity",
  "fuel-amount",
  "fuel-type",
  "cylinder-before",
  "cylinder-after",
  "cylinder-change",
  "dried-day",
  "sand-kg",
  "new-sand",
  "moisture-out",
  "crush-test",
  "rejects",
  "packed",
  "operator",
  "remarks",
];

const WEIGHED: ReadonlySet<Meaning> = new Set<Meaning>([
  "fresh",
  "dried",
  "rejects",
  "sand-kg",
  "packed",
  "lpg",
  "firewood",
  "charcoal",
  "other-biomass",
  "kerosene",
  "fuel-amount",
  "cylinder-before",
  "cylinder-after",
]);

/** The units that the bare numbers of a column may be in. */
export function unitsFor(meaning: Meaning | null): readonly string[] {
  if (meaning === "minutes") return ["min", "h"];
  return meaning !== null && WEIGHED.has(meaning) ? ["kg", "g", "lb"] : [];
}

/** A unit as it stands behind a number. */
export function unitInWords(unit: string): string {
  return { min: "minutes", h: "hours", s: "seconds", lb: "pounds (lb)", oz: "ounces (oz)", t: "tonnes" }[unit] ?? unit;
}
