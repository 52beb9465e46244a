import { normalInterval } from "#server/statistics/interval";
import { sumOf } from "#server/statistics/sum";
import { PRACTICE } from "#server/terms/factors";
import { type Fact, inForce } from "#server/terms/facts";
import { type Figure, type Interval, known, unknown } from "#server/terms/figure";
import type { DaySum } from "#server/terms/sums";
import { type About, none, restsOn } from "./about";
import { yieldSums } from "./dryYield";
import { impliedMoisture, impliedMoistureError } from "./moisture";
import { byDay } from "./period";

/** Where the mass of the loads with both weights went: fresh = dried + driven off. */
export interface MassBalance {
  /** null when no load has both weights */
  readonly masses: { readonly freshKg: number; readonly driedKg: number; readonly drivenOffKg: number } | null;
  readonly dryMatter: DryMatter;
  /** moisture left, if nothing but water went; below 0 as it comes out. A witness, never a claim of dryness */
  readonly impliedMoisture: Figure;
  /** where the moisture may lie when dry matter was assumed or not declared: a band, and never a question */
  readonly moistureBand: { readonly low: number; readonly high: number } | null;
  /**
   * Dry matter lost at the least (kg), if the product held no water at all: given only when the yield is below the
   * measured dry matter of the feed.
   */
  readonly solidsLossAtLeast: Figure | null;
}

/** Dry matter of the feed over the days weighed, by fresh mass. */
export type DryMatter =
  | { readonly basis: "measured" | "assumed"; readonly share: number; readonly sd: number }
  | { readonly basis: "not-declared" };

/**
 * Mass balance of a period, over the loads with both weights.
 *
 * Moisture left = 1 − dry matter / yield. Its interval adds the errors of dry matter and of the yield (where there are
 * days enough for one). Handling losses make it look drier than it is. Dry matter that was assumed draws a band of twice
 * its error; where none is declared the band is that of larvae with 65 to 77 % water (common practice).
 *
 * massBalance([50 kg -> 16.5 kg], dry matter 0.30 measured) // driven off 33.5 kg, moisture left 1 − 0.3/0.33 = 0.0909
 */
export function massBalance(sums: readonly DaySum[], facts: readonly Fact[], about: About): MassBalance {
  const rests = restsOn(sums, byDay(sums, "dry-yield"), about);
  const found = yieldSums(sums);
  const dryMatter = dryMatterOf(sums, facts);
  if (found === null || !(found.ratio > 0)) {
    const nothing = none("no-batch-with-both-weights", "share", rests, about);
    return { masses: null, dryMatter, impliedMoisture: nothing, moistureBand: null, solidsLossAtLeast: null };
  }
  const { freshKg, driedKg, ratio, se } = found;
  const common = { restsOn: rests, asKnownOn: about.asKnownOn };
  const masses = { freshKg, driedKg, drivenOffKg: freshKg - driedKg };
  if (dryMatter.basis === "not-declared") {
    const implied = unknown({ why: "dry-matter-not-declared", unit: "share", ...common });
    const band = bandOf(1 - PRACTICE.moistureInHigh.value, 1 - PRACTICE.moistureInLow.value, ratio);
    return { masses, dryMatter, impliedMoisture: implied, moistureBand: band, solidsLossAtLeast: null };
  }
  const { share, sd, basis } = dryMatter;
  const value = impliedMoisture(share, ratio);
  const interval = moistureInterval(value, impliedMoistureError(share, sd, ratio, se ?? 0));
  const lost = basis === "measured" && ratio < share;
  return {
    masses,
    dryMatter,
    impliedMoisture: known({ value, unit: "share", interval, ...common }),
    moistureBand: basis === "assumed" ? bandOf(share - 2 * sd, share + 2 * sd, ratio) : null,
    solidsLossAtLeast: lost ? known({ value: share * freshKg - driedKg, unit: "kg", ...common }) : null,
  };
}

function moistureInterval(value: number, error: number): Interval | null {
  return error > 0 ? normalInterval(value, error) : null;
}

/** The drier the feed, the less water is left for the same yield. */
function bandOf(lowShare: number, highShare: number, ratio: number): { low: number; high: number } {
  return { low: impliedMoisture(highShare, ratio), high: impliedMoisture(lowShare, ratio) };
}

/** Days are weighted by fresh mass; errors of the declared shares are taken as one and the same error. */
function dryMatterOf(sums: readonly DaySum[], facts: readonly Fact[]): DryMatter {
  const days = byDay(sums, "dry-yield").filter((day) => day.den > 0);
  const declared = days.flatMap((day) => {
    const fact = inForce(facts, "dry-matter", day.day);
    return fact ? [{ freshKg: day.den, ...fact }] : [];
  });
  if (declared.length === 0 || declared.length < days.length) return { basis: "not-declared" };
  const freshKg = sumOf(declared, (day) => day.freshKg);
  const mean = (value: (day: (typeof declared)[number]) => number) =>
    sumOf(declared, (day) => day.freshKg * value(day)) / freshKg;
  const basis = declared.every((day) => day.measured) ? "measured" : "assumed";
  return { basis, share: mean((day) => day.share), sd: mean((day) => day.sd) };
}
