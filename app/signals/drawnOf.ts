import { dayNumber, monthOf } from "#server/terms/days";
import type { Unit } from "#server/terms/figure";
import type { PointTold, ReferenceTold, SignalTold, StreamShown } from "#server/terms/signalTold";
import type { ChangeDrawn, Sums } from "../_charts/changeDrawn";
import type { Level } from "../_charts/timePanel";
import type { TimeEvent } from "../_charts/timePanels";
import { pointWords, valueTitleOf } from "../_words/signalPage";
import { begunByInWords, coincidesInWords, WATCHED_UNITS } from "../_words/signalStory";

/** A stream as its picture needs it, about one signal or (null) as a whole; null where it has no day to draw. */
export function drawnOf(
  shown: StreamShown,
  about: SignalTold | null,
  sums: readonly Sums[] | null = null,
): ChangeDrawn | null {
  const { points, references, stream } = shown;
  const [first, last] = [points[0], points.at(-1)];
  if (first === undefined || last === undefined) return null;
  const begin = `${monthOf(first.day)}-01`;
  return {
    title: valueTitleOf(stream),
    valueTitle: valueTitleOf(stream),
    unit: unitOf(stream),
    from: begin,
    to: last.day,
    references: splitAt(points, references),
    levels: about === null ? levelsOf(references, begin, last.day) : levelsAbout(about, shown, begin, last.day),
    begun: about === null ? null : { from: about.sinceFrom, to: about.sinceTo, best: about.since },
    point: pointWords(stream).one,
    toldOn: about?.raisedOn ?? null,
    events: eventsOf(shown, about),
    ...(sums === null ? {} : { sums }),
  };
}

/** What sites do together is told in spreads of a day, everything else in the measure's own unit. */
export function unitOf({ site, measure }: StreamShown["stream"]): Unit {
  return site === null ? "count" : WATCHED_UNITS[measure];
}

function splitAt(points: readonly PointTold[], references: readonly ReferenceTold[]): PointTold[][] {
  if (references.length === 0) return [[...points]];
  const begins = references.map(({ from }) => (from === null ? Number.NEGATIVE_INFINITY : dayNumber(from)));
  const placeOf = (day: string) => begins.findLastIndex((begin) => begin <= dayNumber(day));
  return begins.map((_, place) => points.filter(({ day }) => placeOf(day) === place)).filter((days) => days.length > 0);
}

/** The level before the change, as far as its reference reaches back, and the one since. */
function levelsAbout(signal: SignalTold, { references, stream }: StreamShown, first: string, last: string): Level[] {
  if (stream.site === null) return []; // its points are spreads, its levels are not
  const since = signal.since ?? signal.sinceFrom;
  // once it is answered as a real change a reference begins on that day: the level before is that of the one before
  const before = references.findLast(({ from }) => from === null || from < since);
  const begin = before?.from != null && before.from > first ? before.from : first;
  const levels = [
    { from: begin, to: since, value: signal.before },
    { from: since, to: signal.raisedOn, value: signal.after },
  ];
  return levels
    .filter(({ from, to }) => from <= to && to >= first && from <= last)
    .map((level) => ({
      ...level,
      from: level.from < first ? first : level.from,
    }));
}

/** The level of each reference over its days. */
function levelsOf(references: readonly ReferenceTold[], first: string, last: string): Level[] {
  return references.flatMap(({ from, to, level }) => {
    const [begin, end] = [from === null || from < first ? first : from, to === null || to > last ? last : to];
    return level === null || begin > end ? [] : [{ from: begin, to: end, value: level }];
  });
}

/** What was declared or noticed, one rule a day: new references, and what coincides with the signal. */
function eventsOf({ references }: StreamShown, about: SignalTold | null): TimeEvent[] {
  const begun = references.flatMap(({ from, begunBy }) =>
    from === null ? [] : [{ day: from, text: `a new reference, since ${begunByInWords(begunBy)}` }],
  );
  const near = (about?.coincides ?? [])
    .filter(({ day }) => !begun.some((one) => one.day === day))
    .map((one) => ({ day: one.day, text: plainly(coincidesInWords(one)) }));
  return [...begun, ...near].sort((a, b) => (a.day < b.day ? -1 : 1));
}

/** "On 3 Apr 2031 the layout …, as was declared." without its day and its end, which the list of rules has already. */
function plainly(sentence: string): string {
  return sentence.replace(/^On \d+ \w+ \d+ /, "").replace(/\.$/, "");
}
