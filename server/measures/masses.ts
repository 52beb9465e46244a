import { sumOf } from "#server/statistics/sum";
import { type Figure, known } from "#server/terms/figure";
import type { DaySum } from "#server/terms/sums";
import { type About, none, restsOn } from "./about";
import { totalRange } from "./missingRange";
import { byDay } from "./period";

/**
 * Kg of fresh larvae in, of the batches with a fresh weight. Unknown when none has one.
 *
 * freshKg([10 kg, 30 kg, not weighed]) // 40 kg, rests on 2 of the 3 here
 */
export function freshKg(sums: readonly DaySum[], about: About): Figure {
  const days = byDay(sums, "fresh");
  const rests = restsOn(sums, days, about);
  if (days.length === 0) return none("no-fresh-weight", "kg", rests, about);
  const value = sumOf(days, (day) => day.num);
  return known({ value, unit: "kg", restsOn: rests, missingRange: totalRange(value, rests, about, 1), ...kept(about) });
}

/**
 * Kg of dried larvae out, of the batches with both weights. Unknown when there are none.
 *
 * driedKg([10 kg -> 3 kg, 30 kg -> nothing yet]) // 3 kg, rests on 1 of the 2 here
 */
export function driedKg(sums: readonly DaySum[], about: About): Figure {
  const days = byDay(sums, "dry-yield");
  const rests = restsOn(sums, days, about);
  if (days.length === 0) return none("no-batch-with-both-weights", "kg", rests, about);
  const value = sumOf(days, (day) => day.num);
  const range = totalRange(value, rests, about, about.plausible?.highestYield ?? 1);
  return known({ value, unit: "kg", restsOn: rests, missingRange: range, ...kept(about) });
}

/**
 * Kg driven off: fresh in less dried out, of the batches with both weights. Unknown when there are none.
 *
 * drivenOff([10 kg -> 3 kg, 30 kg -> nothing yet]) // 7 kg
 */
export function drivenOff(sums: readonly DaySum[], about: About): Figure {
  const days = byDay(sums, "dry-yield");
  const rests = restsOn(sums, days, about);
  if (days.length === 0) return none("no-batch-with-both-weights", "kg", rests, about);
  const value = drivenOffKg(sums);
  const range = totalRange(value, rests, about, 1 - (about.plausible?.lowestYield ?? 0));
  return known({ value, unit: "kg", restsOn: rests, missingRange: range, ...kept(about) });
}

/** Kg fresh less kg dried over the batches with both weights; 0 when there are none. */
export function drivenOffKg(sums: readonly DaySum[]): number {
  const days = byDay(sums, "dry-yield");
  return sumOf(days, (day) => day.den) - sumOf(days, (day) => day.num);
}

function kept(about: About): Pick<About, "asKnownOn"> {
  return { asKnownOn: about.asKnownOn };
}
