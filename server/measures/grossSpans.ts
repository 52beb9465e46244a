import { sumOf } from "#server/statistics/sum";
import { plusDays } from "#server/terms/days";
import { type Fact, inForce } from "#server/terms/facts";
import type { FuelSpan } from "#server/terms/fuel";
import type { CylinderEvent } from "./cylinderSpans";

/** A gross weight in the morning or in the evening of a day. */
interface Level {
  readonly day: string;
  readonly evening: boolean;
  readonly kg: number;
}

/**
 * Spans of one site's cylinder from its gross weights: what it lost between two weighings.
 *
 * A row with both weights is that day's use, and several rows of a day are added. Weights that stand alone are read as
 * morning (before) and evening (after) and taken from one to the next, so a cylinder weighed before the first load and
 * after the last gives one span. A weight that rises means that the cylinder was changed in between: such a day has no
 * amount, and such a pair no span. Bounds are one scale step for each pair of weighings, where the step is declared.
 *
 * grossSpans([before 20.4 kg on the 2nd, after 15.45 kg on the 9th]) // 2–9: 4.95 kg, weighed
 */
export function grossSpans(book: readonly CylinderEvent[], facts: readonly Fact[]): FuelSpan[] {
  const gross = book.filter((event) => event.kind === "gross");
  const first = gross[0];
  if (first === undefined) return [];
  const spanOf = (from: string, to: string, kg: number | null, pairs: number): FuelSpan => {
    const step = pairs * (inForce(facts, "scale-step", from, "fuel")?.kg ?? 0);
    const shared = inForce(facts, "kitchen-shares", from, first.fuel)?.shared ?? false;
    const amount = kg === null ? null : { low: Math.max(0, kg - step), best: kg, high: kg + step };
    const none = { low: null, best: null, high: null };
    return { site: first.site, fuel: first.fuel, unit: "kg", how: "weighed", from, to, shared, ...(amount ?? none) };
  };
  const both = gross.filter((event) => event.beforeKg !== null && event.afterKg !== null);
  const days = [...new Set(both.map((event) => event.day))].sort().map((day) => {
    const uses = both.filter((event) => event.day === day).map((event) => event.beforeKg! - event.afterKg!);
    const swapped = uses.some((use) => use < 0);
    return spanOf(day, day, swapped ? null : sumOf(uses, (use) => use), uses.length);
  });
  const changed = book.filter((event) => event.kind === "change" && event.count > 0).map((event) => event.day);
  const levels = levelsOf(gross);
  const between = levels.slice(1).flatMap((level, i) => {
    const before = levels[i]!;
    const from = before.evening ? plusDays(before.day, 1) : before.day;
    const to = level.evening ? level.day : plusDays(level.day, -1);
    const swapped = level.kg > before.kg || changed.some((day) => day >= before.day && day <= level.day);
    const idle = level.kg === before.kg; // idle days between two weighings: nothing burned, nothing to ask about
    return to < from || swapped || idle ? [] : [spanOf(from, to, before.kg - level.kg, 1)];
  });
  return [...days, ...between];
}

/** Weights that stand alone in their row, in the order of time; of several in one half of a day the first said. */
function levelsOf(gross: readonly CylinderEvent[]): Level[] {
  const levels = gross.flatMap(({ day, beforeKg, afterKg }): Level[] => {
    if (beforeKg !== null && afterKg === null) return [{ day, evening: false, kg: beforeKg }];
    if (afterKg !== null && beforeKg === null) return [{ day, evening: true, kg: afterKg }];
    return [];
  });
  const order = (level: Level) => `${level.day}${level.evening ? "b" : "a"}`;
  levels.sort((a, b) => (order(a) < order(b) ? -1 : order(a) > order(b) ? 1 : b.kg - a.kg));
  return levels.filter((level, i) => i === 0 || order(level) !== order(levels[i - 1]!));
}
