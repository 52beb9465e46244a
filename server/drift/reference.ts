import { dayNumber } from "#server/terms/days";
import type { Acknowledged, DeclaredChange } from "#server/terms/signal";
import { cut, placeOf, type Series } from "./series";

/** A span of days that are compared with each other, and with nothing before it. */
export interface Reference {
  /** day number; null for the stream's first day */
  readonly from: number | null;
  /** first day of the next reference; null while it runs */
  readonly to: number | null;
  readonly begunBy: "first-day" | "real-change" | DeclaredChange["what"];
}

/** The references of a stream, and the days that teach none of them; null when none is left out. */
export interface Life {
  readonly references: readonly Reference[];
  readonly left: ((day: number) => boolean) | null;
}

/**
 * Where references begin and which days are left out, from what was declared and what was found out.
 *
 * A declared change and a real change found by a signal begin a reference on their day, so both end alike. Days with wrong
 * records and days of a passing cause are left out. "No cause found" changes no reference: the signal counts as a false
 * alarm. Of two beginnings on one day the declared one gives the name.
 */
export function lifeOf(declared: readonly DeclaredChange[], acknowledged: readonly Acknowledged[]): Life {
  const begun = new Map<number, Reference["begunBy"]>();
  for (const one of acknowledged) if (one.kind === "real-change") begun.set(dayNumber(one.from), "real-change");
  for (const one of [...declared].sort((a, b) => (a.what < b.what ? 1 : -1))) begun.set(dayNumber(one.from), one.what);
  const days = [...begun.keys()].sort((a, b) => a - b);
  const references: Reference[] = [{ from: null, to: days[0] ?? null, begunBy: "first-day" }];
  days.forEach((from, i) => {
    references.push({ from, to: days[i + 1] ?? null, begunBy: begun.get(from)! });
  });
  const wrong = new Set(acknowledged.flatMap((one) => (one.kind === "data-error" ? one.days.map(dayNumber) : [])));
  const spans = acknowledged.flatMap((one) =>
    one.kind === "temporary-cause" ? [{ from: dayNumber(one.from), to: dayNumber(one.to) }] : [],
  );
  if (wrong.size === 0 && spans.length === 0) return { references, left: null };
  return { references, left: (day) => wrong.has(day) || spans.some(({ from, to }) => day >= from && day <= to) };
}

/** The days of a stream that belong to a reference and are not left out. */
export function within(series: Series, reference: Reference, left: Life["left"]): Series {
  const days = cut(
    series,
    placeOf(series.day, reference.from ?? series.day[0] ?? 0),
    reference.to === null ? series.day.length : placeOf(series.day, reference.to),
  );
  if (left === null || !days.day.some(left)) return days;
  const kept = Array.from(days.day.keys()).filter((i) => !left(days.day[i]!));
  return {
    day: Int32Array.from(kept, (i) => days.day[i]!),
    value: Float64Array.from(kept, (i) => days.value[i]!),
    mass: Float64Array.from(kept, (i) => days.mass[i]!),
  };
}
