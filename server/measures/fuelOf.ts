import type { Method } from "#server/terms/batch";
import type { Fact } from "#server/terms/facts";
import type { FuelSpan } from "#server/terms/fuel";
import type { DaySum } from "#server/terms/sums";
import { type FuelBook, fuelBook, type LeftOut } from "./fuelBook";
import { type DriedOn, driedDays, spanHeat } from "./fuelDays";
import { type Against, type FuelWindow, fuelWindow, tiedByDays } from "./fuelWindows";
import type { Period } from "./period";

/** The fuel of a period laid against what was dried with it. */
export interface Fuel {
  /** windows with the days on which every fuel is known and none is shared with the kitchen */
  readonly windows: readonly FuelWindow[];
  /** the same with the shared fuel in: only good for an upper bound. Equal to `windows` when nothing is shared */
  readonly windowsWithKitchen: readonly FuelWindow[];
  readonly book: FuelBook;
  readonly leftOut: readonly { readonly span: FuelSpan; readonly why: LeftOut }[];
}

/**
 * Lays the fuel of a period against the loads dried with it.
 *
 * The days are those of the spans that end in the period, as far as every fuel burned on them is known by the period's
 * end. All fuel of these days counts: that of the spans that end, and the share of an earlier span that reaches into
 * them. What was dried is that of exactly these days, before the period too. So heat and mass never come from
 * different days, and a fuel whose span ends later is not taken for nothing.
 *
 * `sums` are all of the site from `fuelReach(spans, period).from` on; with a `method`, days on which the site dried by
 * another method as well are left out, since nobody said which fuel was burned for which.
 */
export function fuelOf(
  sums: readonly DaySum[],
  spans: readonly FuelSpan[],
  facts: readonly Fact[],
  period: Period,
  method: Method | null,
): Fuel {
  const book = fuelBook(spans, period);
  const dried = driedDays(sums);
  const ended = book.ended.map((span) => ({ span, heat: spanHeat(span, dried, facts) }));
  const heats = ended.flatMap(({ heat }) => heat ?? []);
  const idle = ended.filter(({ heat }) => heat === null).map(({ span }) => ({ span, why: reasonOf(span, dried) }));
  const before = book.before.flatMap((span) => spanHeat(span, dried, facts) ?? []);
  const standing = [...book.ended, ...book.before];
  const mixed = new Set(
    method === null ? [] : sums.filter((sum) => sum.method !== method && sum.batches > 0).map((sum) => sum.day),
  );
  const mixedSpans = [...heats, ...before].filter(({ days }) => days.some(({ day }) => mixed.has(day)));
  const withKitchen = standing.filter(({ shared }) => shared);
  const against = (day: string, kitchen: boolean): Against | null => {
    if (mixedSpans.some(({ span }) => covers(span, day))) return "several-methods";
    if (book.open.some((span) => covers(span, day) && !coveredByFuel(standing, span, day))) return "open";
    return !kitchen && withKitchen.some((span) => covers(span, day)) ? "shared" : null;
  };
  const windowsOf = (kitchen: boolean) =>
    tiedByDays(heats).map((tied) => fuelWindow(tied, before, (day) => against(day, kitchen)));
  const windows = windowsOf(false);
  return {
    windows,
    windowsWithKitchen: withKitchen.length === 0 ? windows : windowsOf(true),
    book,
    leftOut: [...book.leftOut, ...idle],
  };
}

function covers(span: FuelSpan, day: string): boolean {
  return span.from <= day && day <= span.to;
}

function coveredByFuel(standing: readonly FuelSpan[], open: FuelSpan, day: string): boolean {
  return standing.some((span) => span.fuel === open.fuel && covers(span, day));
}

function reasonOf(span: FuelSpan, dried: DriedOn): LeftOut {
  return dried(span.from, span.to).some((day) => day.freshKg > 0)
    ? "no-heat-for-its-unit"
    : "nothing-dried-on-its-days";
}
