import type { SignalTold } from "#server/api/signals";
import type { SiteOverTime } from "#server/jobs/siteOverTime";
import type { Point } from "#server/measures/overTime";
import type { Method } from "#server/terms/batch";
import { plusDays } from "#server/terms/days";
import type { Watched } from "#server/terms/signal";
import type { Level, Panel, TimePoint } from "../../_charts/timePanel";
import type { TimeEvent } from "../../_charts/timePanels";
import { listInWords } from "../../_words/days";
import { factInWords, factName } from "../../_words/facts";
import { METHOD_WORDS } from "../../_words/methods";

/** New sand on more days than this would hide everything else under rules; it then stands with the sand alone. */
const MOST_SAND_RULES = 12;
/** So many days of the level before a step are drawn. */
const LEVEL_DAYS = 28;

/** The panels of a site on one axis: three for each way of drying, and its record. */
export function panelsOf(past: SiteOverTime, signals: readonly SignalTold[], floorMjPerKg: number | null): Panel[] {
  const { methods, record, usableMark, period } = past;
  const several = methods.length > 1;
  const levels = (measure: Watched, method: Method | null) =>
    levelsOf(
      signals.filter((one) => one.measure === measure && one.method === method),
      period,
    );
  return [
    ...methods.flatMap(({ method, dryYield, fuelPerDrivenOff, freshPerPanHour }) => {
      const title = (name: string) => (several && method !== null ? `${name}; ${METHOD_WORDS[method]}` : name);
      return [
        {
          title: title("Dry yield, kg dried per 100 kg fresh"),
          points: dryYield.map(pointOf),
          levels: levels("dry-yield", method),
        },
        {
          title: title("Fuel intensity, MJ per kg driven off"),
          points: fuelPerDrivenOff.map(pointOf),
          levels: levels("fuel-intensity", method),
          floor: floorMjPerKg,
        },
        {
          title: title("Throughput, kg per pan-hour"),
          points: freshPerPanHour.map(pointOf),
          levels: levels("throughput", method),
        },
      ];
    }),
    { title: "Record usable, % of what was owed", points: record.map(pointOf), target: usableMark },
  ];

  function pointOf({ from, to, figure }: Point): TimePoint {
    const { used, owed } = figure.restsOn;
    const hollow = figure.unit !== "share" && owed !== null && used < usableMark * owed;
    return { from, to, figure, hollow };
  }
}

/** The levels of one series: the one before its first step over some weeks, and after each step until the next, or as long as it is known to have held. */
function levelsOf(signals: readonly SignalTold[], { from, to }: SiteOverTime["period"]): Level[] {
  const since = (signal: SignalTold) => signal.since ?? signal.sinceFrom;
  // of two steps on one day the one told last: it knows more
  const byDay = new Map(
    [...signals].sort((a, b) => (a.raisedOn < b.raisedOn ? -1 : 1)).map((signal) => [since(signal), signal]),
  );
  const steps = [...byDay.values()].sort((a, b) => (since(a) < since(b) ? -1 : 1));
  const levels = steps.flatMap((signal, i) => {
    const next = steps[i + 1];
    const held = signal.state === "stands" ? to : signal.raisedOn;
    const end = next === undefined ? held : plusDays(since(next), -1);
    const after = { from: since(signal), to: end, value: signal.after };
    const before = {
      from: plusDays(since(signal), -LEVEL_DAYS),
      to: plusDays(since(signal), -1),
      value: signal.before,
    };
    return i === 0 ? [before, after] : [after];
  });
  return levels
    .map((level) => ({ ...level, from: level.from < from ? from : level.from, to: level.to > to ? to : level.to }))
    .filter((level) => level.from <= level.to);
}

/** What happened, in the order of days: events declared, what became different, and new sand where it was seldom. */
export function eventsOf({ events, sand, period }: SiteOverTime): TimeEvent[] {
  const declared = events.map((fact) => ({
    day: fact.from,
    text: fact.kind === "event" ? factInWords(fact) : `${factName(fact.kind).toLowerCase()} now: ${factInWords(fact)}`,
  }));
  const days = [...new Set(sand.pans.flatMap(({ newOn }) => newOn))].filter((day) => day <= period.to).sort();
  const renewed = days.map((day) => ({
    day,
    text: `new sand, pan ${listInWords(sand.pans.filter(({ newOn }) => newOn.includes(day)).map(({ pan }) => pan))}`,
  }));
  const all = [...declared, ...(renewed.length > MOST_SAND_RULES ? [] : renewed)];
  // one rule a day, whatever happened on it: two numbers in one place cannot be read
  return [...new Set(all.map(({ day }) => day))].sort().map((day) => ({
    day,
    text: all.flatMap((one) => (one.day === day ? [one.text] : [])).join("; "),
  }));
}
