import { tInterval } from "#server/statistics/interval";
import { type Pair, ratioOfSums } from "#server/statistics/ratio";
import { type Fact, inForce } from "#server/terms/facts";
import { type Figure, known, type NoFigure, type Unit } from "#server/terms/figure";
import type { DaySum } from "#server/terms/sums";
import { type About, none, restsOn } from "./about";
import { FEWEST_DAYS } from "./dryYield";
import { byDay, type DayPart } from "./period";

/**
 * Kg fresh per operating day; an operating day is a day with any load here.
 *
 * A day on which no load has a fresh weight is left out, since unknown is not nothing; a day with some is in, and
 * `restsOn` says how many loads it lacks. Interval by day. Unknown without a fresh weight.
 *
 * freshPerDay([40 kg on the 1st, 20 kg on the 2nd]) // 30 kg/day
 */
export function freshPerDay(sums: readonly DaySum[], about: About): Figure {
  const days = byDay(sums, "fresh");
  const pairs = days.map((day) => ({ num: day.num, den: 1 }));
  return ratioFigure(sums, days, pairs, "kg/day", "no-fresh-weight", about);
}

/**
 * Kg fresh per hour that a pan was on the fire, of the batches with a fresh weight and minutes.
 *
 * Pan-hours add over pans; two pans for one hour are two pan-hours. Interval by day. Unknown without minutes.
 *
 * freshPerPanHour([10 kg in 95 min, 10 kg in 90 min]) // 20 / (185 / 60) = 6.49 kg/pan-hour
 */
export function freshPerPanHour(sums: readonly DaySum[], about: About): Figure {
  const days = byDay(sums, "pan-time");
  const pairs = days.map((day) => ({ num: day.num, den: day.den / 60 }));
  return ratioFigure(sums, days, pairs, "kg/pan-hour", "no-batch-with-minutes", about);
}

/**
 * Pan-minutes on the fire per kg fresh, of the batches with a fresh weight and minutes. Unknown without minutes.
 *
 * minutesPerKg([10 kg in 95 min, 10 kg in 90 min]) // 185 / 20 = 9.25 minutes/kg
 */
export function minutesPerKg(sums: readonly DaySum[], about: About): Figure {
  const days = byDay(sums, "pan-time");
  const pairs = days.map((day) => ({ num: day.den, den: day.num }));
  return ratioFigure(sums, days, pairs, "minutes/kg", "no-batch-with-minutes", about);
}

/**
 * Share of the declared pan hours of the operating days that pans were on the fire.
 *
 * Loading and sieving fill the rest, so a full share is never reached; above 1 the record or the declaration is wrong,
 * and it is not clipped. Days without minutes are left out. Unknown when pans or hours are not declared for a day.
 *
 * roastingShare([95 + 90 min on one day], 2 pans for 8 hours) // 185 / 960 = 0.193
 */
export function roastingShare(sums: readonly DaySum[], facts: readonly Fact[], about: About): Figure {
  const days = byDay(sums, "minutes");
  const pairs = days.flatMap((day) => {
    const pans = inForce(facts, "pans", day.day);
    const hours = inForce(facts, "hours", day.day);
    return pans && hours ? [{ num: day.num, den: pans.pans * hours.perDay * 60 }] : [];
  });
  const gap = days.length > pairs.length;
  const why = gap ? "pans-or-hours-not-declared" : "no-batch-with-minutes";
  return ratioFigure(sums, days, gap ? [] : pairs, "share", why, about);
}

/** A ratio of sums over days as a figure, with its interval by day where there are five days. */
function ratioFigure(
  sums: readonly DaySum[],
  days: readonly DayPart[],
  pairs: readonly Pair[],
  unit: Unit,
  why: NoFigure,
  about: About,
): Figure {
  const rests = restsOn(sums, days, about);
  const found = ratioOfSums(pairs);
  if (found === null) return none(why, unit, rests, about);
  const { ratio, se, clusters } = found;
  const interval = se === null || clusters < FEWEST_DAYS ? null : tInterval(ratio, se, clusters - 1);
  return known({ value: ratio, unit, restsOn: rests, interval, asKnownOn: about.asKnownOn });
}
