import { dayNumber, daysBetween } from "#server/terms/days";
import { type FuelSpan, HOW_KNOWN } from "#server/terms/fuel";
import { isWithin, type Period } from "./period";

export type LeftOut = "overlaps-better-known" | "no-amount" | "no-heat-for-its-unit" | "nothing-dried-on-its-days";

/** A site's fuel as it stands for one period. */
export interface FuelBook {
  /** end in the period, with an amount */
  readonly ended: readonly FuelSpan[];
  /** ended before the period, with an amount, and reach into the days of those that ended in it */
  readonly before: readonly FuelSpan[];
  /** not known by the period's end: begun and not ended, ending later, or without an amount */
  readonly open: readonly FuelSpan[];
  /** of those, the ones that have begun and not ended anywhere */
  readonly pending: readonly FuelSpan[];
  readonly leftOut: readonly { readonly span: FuelSpan; readonly why: LeftOut }[];
}

/**
 * Sorts a site's spans of fuel for a period. A span counts in the period in which it ends, so over successive months
 * every span counts once. Where two of one fuel speak of the same days the better known one stands (weighed before
 * changed before counted before bought), of equals the shorter and earlier; the other is left out and named.
 * Give all spans of the site, so that the same one stands in every period.
 */
export function fuelBook(given: readonly FuelSpan[], period: Period): FuelBook {
  const pending = given.filter((span) => span.how === "pending" && span.from <= period.to).sort(inOrderOfContent);
  const taken = new Map<string, Set<string>>();
  const leftOut: { span: FuelSpan; why: LeftOut }[] = [];
  const standing: FuelSpan[] = [];
  const withoutAmount: FuelSpan[] = [];
  for (const span of tiedTo(period, given).sort(betterFirst)) {
    const days = daysBetween(span.from, span.to);
    const ofFuel = taken.get(span.fuel) ?? new Set<string>();
    const overlaps = days.some((day) => ofFuel.has(day));
    if (isWithin(span.to, period) && (overlaps || span.best === null)) {
      leftOut.push({ span, why: overlaps ? "overlaps-better-known" : "no-amount" });
    }
    if (overlaps) continue;
    if (span.best === null) {
      withoutAmount.push(span);
      continue;
    }
    standing.push(span);
    for (const day of days) ofFuel.add(day);
    taken.set(span.fuel, ofFuel);
  }
  standing.sort(inOrderOfContent);
  const ended = standing.filter((span) => isWithin(span.to, period));
  const earliest = ended[0]?.from ?? period.from;
  const later = [...standing, ...withoutAmount].filter((span) => span.from <= period.to && span.to >= earliest);
  return {
    ended,
    before: standing.filter((span) => span.to < period.from && span.to >= earliest),
    open: [
      ...later.filter((span) => span.best === null || span.to > period.to),
      ...pending.map((span) => untilNext(span, given)),
    ],
    pending,
    leftOut,
  };
}

/** The first and last day whose sums a period's fuel needs: spans that end in it reach back before it. */
export function fuelReach(spans: readonly FuelSpan[], period: Period): Period {
  const { ended, before } = fuelBook(spans, period);
  const days = [...ended, ...before].map((span) => span.from);
  return { from: [period.from, ...days].sort()[0]!, to: period.to };
}

export function touch(a: Pick<FuelSpan, "from" | "to">, b: Pick<FuelSpan, "from" | "to">): boolean {
  return a.from <= b.to && b.from <= a.to;
}

/**
 * Spans with an end that lie in or after the period, and those before it that days tie to them: others cannot matter.
 * This keeps years of daily weighings out of a month's work.
 */
function tiedTo(period: Period, spans: readonly FuelSpan[]): FuelSpan[] {
  const latestFirst = spans.filter(({ how }) => how !== "pending").sort((a, b) => texts(b.to, a.to));
  let reach = period.from;
  return latestFirst.filter((span) => {
    if (span.to < reach) return false;
    if (span.from < reach) reach = span.from;
    return true;
  });
}

/** A pending span is open until another of its fuel begins. */
function untilNext(span: FuelSpan, spans: readonly FuelSpan[]): FuelSpan {
  const begins = spans.filter((other) => other.fuel === span.fuel && other.from > span.from).map((other) => other.from);
  return { ...span, to: begins.sort()[0] ?? "9999-12-31" };
}

function inOrderOfContent(a: FuelSpan, b: FuelSpan): number {
  return (
    texts(a.from, b.from) ||
    texts(a.to, b.to) ||
    texts(a.fuel, b.fuel) ||
    texts(a.how, b.how) ||
    texts(a.unit, b.unit) ||
    (a.best ?? -1) - (b.best ?? -1)
  );
}

function betterFirst(a: FuelSpan, b: FuelSpan): number {
  return HOW_KNOWN.indexOf(a.how) - HOW_KNOWN.indexOf(b.how) || length(a) - length(b) || inOrderOfContent(a, b);
}

function length(span: FuelSpan): number {
  return dayNumber(span.to) - dayNumber(span.from);
}

function texts(a: string, b: string): number {
  return a < b ? -1 : Number(a > b);
}
