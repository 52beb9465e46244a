import type { SignalTold, StoryTold } from "#server/terms/signalTold";

/** What the sites of a method did together, with the sites' own stories that are wholly part of it. */
export interface TogetherGroup {
  readonly key: string;
  /** the movement itself; in the order of its signals where its own story waits, else the signal that the parts name */
  readonly signals: readonly SignalTold[];
  readonly parts: readonly StoryTold[];
}

/** Stories of single sites, and what sites did together told once with the sites that it holds. Orders are kept. */
export function sortedOut(open: readonly StoryTold[]): {
  readonly together: readonly TogetherGroup[];
  readonly alone: readonly StoryTold[];
} {
  const groups = new Map<string, { key: string; signals: readonly SignalTold[]; parts: StoryTold[] }>();
  for (const story of open) {
    const [first] = story.signals;
    if (story.site === null && first !== undefined)
      groups.set(first.id, { key: first.id, signals: story.signals, parts: [] });
  }
  const alone: StoryTold[] = [];
  for (const story of open) {
    if (story.site === null) continue;
    const { partOf } = story;
    if (partOf === null) {
      alone.push(story);
      continue;
    }
    const its = [...groups.values()].find(({ signals }) => signals.some(({ id }) => id === partOf.id));
    if (its === undefined) groups.set(partOf.id, { key: partOf.id, signals: [partOf], parts: [story] });
    else its.parts.push(story);
  }
  return { together: [...groups.values()], alone };
}

/** A series of a story once, by its last signal: the one that knows most. In the order in which series were first told. */
export function lastOfEach(signals: readonly SignalTold[]): SignalTold[] {
  const keys = [...new Set(signals.map(seriesKey))];
  return keys.map((key) => {
    const own = signals.filter((signal) => seriesKey(signal) === key);
    return own.reduce((last, one) => (one.raisedOn >= last.raisedOn ? one : last));
  });
}

/** Every series of the stories once, the one told latest first. */
export function overInOrder(
  stories: readonly StoryTold[],
): { readonly story: StoryTold; readonly signal: SignalTold }[] {
  const rows = stories.flatMap((story) => lastOfEach(story.signals).map((signal) => ({ story, signal })));
  return rows.sort((a, b) => (a.signal.raisedOn < b.signal.raisedOn ? 1 : -1));
}

type Series = Pick<SignalTold, "method" | "measure">;

export function isSameSeries(a: Series, b: Series): boolean {
  return seriesKey(a) === seriesKey(b);
}

function seriesKey({ method, measure }: Series): string {
  return `${method} ${measure}`;
}
