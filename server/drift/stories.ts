import { plusDays } from "#server/terms/days";
import type { Signal } from "#server/terms/signal";

/** Signals that tell of one thing: streams of one site that moved together, or one stream that goes on saying so. */
export interface Story {
  readonly site: number | null;
  readonly signals: readonly Signal[];
  readonly firstRaisedOn: string;
  /** movement of the whole programme that all of the story's signals are part of; null where the site moved by itself */
  readonly partOf: Signal | null;
}

/** `together`: recorded as part of what sites did together, if need be of sites with another method. */
type Told = Signal & { readonly together?: boolean };

/** A date that was not determined is taken to lie in the fortnight before the signal. */
const OPEN_DAYS = 14;

/**
 * Groups signals into stories, in the order in which these were first raised.
 *
 * Two signals of a site belong together when the spans in which their changes may lie overlap. A story whose every
 * signal runs with a programme-wide one, in measure, method, direction and span, is part of that; where its method has no
 * movement of its own and the signal was recorded as part of one, the method is left aside.
 */
export function storiesOf(signals: readonly Told[]): Story[] {
  const sorted = [...signals].sort(bySiteThenDay);
  const groups: Told[][] = [];
  for (const signal of sorted) {
    const together = groups.filter(
      (group) => group[0]!.site === signal.site && group.some((other) => overlap(other, signal)),
    );
    const merged = [...together.flat(), signal];
    for (const group of together) groups.splice(groups.indexOf(group), 1);
    groups.push(merged);
  }
  const common = signals.filter((signal) => signal.site === null);
  return groups
    .map((group) => {
      const ordered = [...group].sort(bySiteThenDay);
      return {
        site: ordered[0]!.site,
        signals: ordered,
        firstRaisedOn: ordered[0]!.raisedOn,
        partOf: ordered[0]!.site === null ? null : sharedBy(ordered, common),
      };
    })
    .sort((a, b) => compare(a.firstRaisedOn, b.firstRaisedOn) || (a.site ?? -1) - (b.site ?? -1));
}

function sharedBy(signals: readonly Told[], common: readonly Signal[]): Signal | null {
  const found = signals.map((signal) => {
    const ofMeasure = common.filter(({ measure }) => measure === signal.measure);
    const like = ofMeasure.filter(({ method }) => method === signal.method);
    const beside = like.length === 0 && signal.together === true ? ofMeasure : like;
    return beside.find((one) => one.direction === signal.direction && overlap(one, signal));
  });
  return found.every((one) => one !== undefined) ? (found[0] ?? null) : null;
}

function overlap(a: Signal, b: Signal): boolean {
  const [first, second] = [spanOf(a), spanOf(b)];
  return first.from <= second.to && second.from <= first.to;
}

function spanOf({ dateDetermined, sinceFrom, sinceTo, raisedOn }: Signal): { from: string; to: string } {
  return dateDetermined ? { from: sinceFrom, to: sinceTo } : { from: plusDays(raisedOn, -OPEN_DAYS), to: raisedOn };
}

function bySiteThenDay(a: Signal, b: Signal): number {
  return (
    (a.site ?? -1) - (b.site ?? -1) ||
    compare(a.raisedOn, b.raisedOn) ||
    compare(a.method, b.method) ||
    compare(a.measure, b.measure)
  );
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
