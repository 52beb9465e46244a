import type { MissingRange, RestsOn } from "#server/terms/figure";
import type { About } from "./about";

/**
 * How many loads, in units of what is owed, the figure could not use: those that never came and those that came
 * without what the figure needs. Null where nobody declared what was owed.
 */
export function missingOf(rests: RestsOn): number | null {
  return rests.owed === null ? null : Math.max(rests.owed, rests.here) - rests.used;
}

/**
 * What a ratio could have been, whatever the missing loads were: worst case, nothing assumed about why they are missing.
 *
 * low = (num + n·x·lowest) / (den + n·x) with n missing loads of at most x kg, high with the highest ratio. Plausible
 * limits that the value itself lies beyond are widened to it. Null, "cannot be bounded", when nobody declared what was
 * owed or what is plausible.
 *
 * Source: manski-bounds.
 *
 * ratioRange(36 / 120, 3 of 4 used, 50 kg at the most, 0.22 … 0.38) // 47/170 = 0.276 … 55/170 = 0.324
 */
export function ratioRange(num: number, den: number, rests: RestsOn, about: About): MissingRange | null {
  const missing = missingOf(rests);
  if (missing === null || about.plausible === null) return null;
  const { highestFreshKg, lowestYield, highestYield } = about.plausible;
  const mass = missing * about.loadsEach * highestFreshKg;
  const low = Math.min(lowestYield, num / den);
  const high = Math.max(highestYield, num / den);
  return { low: (num + mass * low) / (den + mass), high: (num + mass * high) / (den + mass) };
}

/**
 * What a total could have been: at least what is logged, at most that and every missing load at its largest.
 *
 * `perFreshKg` turns kg of fresh larvae into the total's own measure: 1 for fresh kg, the highest yield for dried kg.
 */
export function totalRange(total: number, rests: RestsOn, about: About, perFreshKg: number): MissingRange | null {
  const missing = missingOf(rests);
  if (missing === null || about.plausible === null) return null;
  return { low: total, high: total + missing * about.loadsEach * about.plausible.highestFreshKg * perFreshKg };
}
