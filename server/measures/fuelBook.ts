import { dayNumber } from "#server/terms/days";
import { type FuelSpan, HOW_KNOWN } from "#server/terms/fuel";
import { isWithin, type Period } from "./period";

export type LeftOut = "overlaps-better-known" | "no-amount" | "no-heat-for-its-unit" | "nothing-dried-on-its-days";

/** A site's fuel as it stands for one period. */
export interface FuelBook {
  /** end in the period, with an amount */
  readonly ended: readonly FuelSpan[];
  /** ended before the period, with an amount */
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
  const spans = [...given].sort(inOrderOfContent);
  const pending = spans.filter((span) => span.how === "pending" && span.from <= period.to);
  const leftOut: { span: FuelSpan; why: LeftOut }[] = [];
  const standing: FuelSpan[] = [];
  const unknownAmount: FuelSpan[] = [];
  for (const span of spans.filter(({ how }) => how !== "pending").toSorted(betterFirst)) {
    const overlaps = standing.some((other) => other.fuel === span.fuel && touch(other, span));
    if (!overlaps && span.best !== null) standing.push(span);
    else if (isWithin(span.to, period)) leftOut.push({ span, why: overlaps ? "overlaps-better-known" : "no-amount" });
    if (!overlaps && span.best === null) unknownAmount.push(span);
  }
  standing.sort(inOrderOfContent);
  const covered = (span: FuelSpan) => standing.some((other) => other.fuel === span.fuel && touch(other, span));
  const later = standing.filter((span) => span.to > period.to && span.from <= period.to);
  return {
    ended: standing.filter((span) => isWithin(span.to, period)),
    before: standing.filter((span) => span.to < period.from),
    open: [
      ...later,
      ...unknownAmount.filter((span) => !covered(span)),
      ...pending.map((span) => untilNext(span, spans)),
    ],
    pending,
    leftOut,
  };
}

/** The first and last day whose sums a period's fuel needs: spans that end in it reach back before it. */
export function fuelReach(spans: readonly FuelSpan[], period: Period): Period {
  const { ended, before } = fuelBook(spans, period);
  const days = new Set([period.from, ...ended.map((span) => span.from)]);
  const earliest = [...days].sort()[0]!;
  const touching = before.filter((span) => span.to >= earliest).map((span) => span.from);
  return { from: [earliest, ...touching].sort()[0]!, to: period.to };
}

export function touch(a: Pick<FuelSpan, "from" | "to">, b: Pick<FuelSpan, "from" | "to">): boolean {
  return a.from <= b.to && b.from <= a.to;
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
