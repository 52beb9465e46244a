import { dayNumber } from "#server/terms/days";

/** A load on the fire: when it began, in minutes after midnight of its day, and for how long. */
export interface TimeOnFire {
  readonly day: string;
  readonly startMinute: number;
  readonly minutes: number;
}

const DAY = 24 * 60;

/**
 * Minutes of the clock during which at least one pan was on the fire, beside the pan-minutes of all loads together.
 *
 * Clock minutes count the union of the spans, also over midnight: two pans at once keep the fire busy once. Pan-minutes
 * add the spans up. Null when there is no load with a start and minutes.
 *
 * timeOnFire([08:00–09:30, 08:45–10:00]) // clock 120 min, pans 90 + 75 = 165 min
 */
export function timeOnFire(
  loads: readonly TimeOnFire[],
): { readonly clockMinutes: number; readonly panMinutes: number } | null {
  if (loads.length === 0) return null;
  const spans = loads
    .map(({ day, startMinute, minutes }) => ({ from: dayNumber(day) * DAY + startMinute, minutes }))
    .sort((a, b) => a.from - b.from || a.minutes - b.minutes);
  let clockMinutes = 0;
  let panMinutes = 0;
  let busyUntil = Number.NEGATIVE_INFINITY;
  for (const { from, minutes } of spans) {
    const to = from + minutes;
    clockMinutes += Math.max(0, to - Math.max(from, busyUntil));
    panMinutes += minutes;
    busyUntil = Math.max(busyUntil, to);
  }
  return { clockMinutes, panMinutes };
}
