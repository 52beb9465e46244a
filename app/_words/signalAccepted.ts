import type { AcceptedShown, MonthWatched, SlowTold, StreamWatched } from "#server/terms/acceptedTold";
import type { StreamTold } from "#server/terms/signalTold";
import { counted, listInWords, monthInWords } from "./days";
import { METHOD_WORDS } from "./methods";
import { whereOf } from "./signalPage";
import { percent } from "./signalSeries";
import { WATCHED_WORDS } from "./signals";

type Reading = AcceptedShown["reading"];

export const READING_WORDS: Record<Reading, { readonly name: string; readonly means: (count: number) => string }> = {
  "on-average": {
    name: "About so many a month",
    means: (count) =>
      count === 1
        ? "On average. With one, a month without any and a month with one are equally likely, and every fourth month has two or more."
        : "On average; some months have none, some have more.",
  },
  "at-most-one-in-95-percent": {
    name: "In 95 % of months at most one",
    means: () => "Stricter: about one false alarm in three months, and every change is found later.",
  },
};

/** The promise in a sentence that a person could say aloud. */
export function acceptedInWords({ said, reading, months }: Pick<AcceptedShown, "said" | "reading" | "months">): string {
  const last = months.at(-1);
  const over =
    last === undefined
      ? ""
      : `, over all ${counted(last.streams, "series", "series")} and ${counted(Math.round(last.points), "point")} a month`;
  return reading === "on-average"
    ? `Limits are set so that about ${number(said)} false ${said === 1 ? "alarm" : "alarms"} a month is chance${over}.`
    : `Limits are set so that in 95 % of months at most one alarm is chance${over}.`;
}

/** Twelve months held against the promise, without making it better than it is. */
export function keptInWords(months: readonly MonthWatched[]): string | null {
  if (months.length === 0) return null;
  const sum = (of: (month: MonthWatched) => number) => months.reduce((all, month) => all + of(month), 0);
  const [raised, answered, found, none] = [
    sum((month) => month.raised),
    sum((month) => month.answered),
    sum((month) => month.confirmed),
    sum((month) => month.falseAlarms),
  ];
  const chance = number(sum((month) => month.expectedFalse));
  const told = `In ${months.length === 1 ? "the one month" : `the ${months.length} months`} watched, chance alone would have brought ${chance}; ${counted(raised, "signal")} ${raised === 1 ? "was" : "were"} told, each change once and what all did together once.`;
  if (answered === 0) return `${told} None is answered yet, so nobody can say how many of them were false.`;
  const waiting = raised - answered;
  return `${told} Of ${answered} answered, ${number(found)} had a cause and ${number(none)} had none${waiting === 0 ? "" : `; ${number(waiting)} ${waiting === 1 ? "was" : "were"} not answered`}.`;
}

export function seriesInWords(stream: StreamTold & { readonly name: string | null }): string {
  return `${whereOf(stream, stream.name)}: ${WATCHED_WORDS[stream.measure].name.toLowerCase()}${stream.site === null ? "" : `, ${METHOD_WORDS[stream.method]}`}`;
}

/** "44 days from now", or "44 days later" where an earlier day's knowledge is shown. */
export function inDays(days: number | null, known?: string): string {
  return days === null ? "–" : `${counted(days, "day")} ${known === undefined ? "from now" : "later"}`;
}

/** "3 signals told in April 2031", as they are counted against the promise. */
export function toldInMonth(month: string, count: number): string {
  return `${count === 0 ? "No signal" : counted(count, "signal")} told in ${monthInWords(month)}`;
}

/** What the count of a month leaves out, and why. */
export const COUNTED_ONCE =
  "Counted against the false alarms accepted is each change once, and what all did together once.";
export const NOT_COUNTED =
  "Told as well, but not counted: what only said an earlier signal again, what is part of something all did together, and months of the record, which have a share of their own.";

const SOONER = 14;

/** Where logs sent weekly would tell of a change much sooner; null where they would not. */
export function weeklyInWords(streams: readonly StreamWatched[], change: number): string | null {
  const won = streams.flatMap((stream) => {
    const found = stream.found.find((one) => one.change === change);
    if (found?.calendarDays == null || found.calendarDaysWeekly === null) return [];
    return [{ where: whereOf(stream, stream.name), sooner: found.calendarDays - found.calendarDaysWeekly }];
  });
  const much = won.filter(({ sooner }) => sooner >= SOONER);
  if (much.length === 0) return null;
  const places = [...new Set(much.map(({ where }) => where))].sort();
  const [least, most] = [Math.min(...much.map(({ sooner }) => sooner)), Math.max(...much.map(({ sooner }) => sooner))];
  const days = least === most ? String(least) : `${least} to ${most}`;
  return `Much of the time goes by until the monthly log comes. Sent every week, a change of ${percent(change)} would be told ${days} days sooner at ${places.length > 8 ? counted(places.length, "site") : listInWords(places)}. A log may be sent as often as one likes: the same days are never counted twice.`;
}

const LONG_DAYS = 60;

/** What daily watching cannot see, said plainly: changes that take longer than two months of days, or are never found. */
export function unseenInWords(streams: readonly StreamWatched[]): string | null {
  const running = streams.filter(({ state, found }) => state === "running" && found.length > 0);
  const changes = [...new Set(running.flatMap(({ found }) => found.map(({ change }) => change)))].sort((a, b) => a - b);
  const said = changes.flatMap((change) => {
    const late = running.filter(({ found }) =>
      found.some((one) => one.change === change && (one.days === null || one.days > LONG_DAYS)),
    );
    return late.length === 0 ? [] : [`${percent(change)} in ${late.length} of ${running.length}`];
  });
  if (said.length === 0) return null;
  return `Daily watching does not see everything. Not found within ${LONG_DAYS} days would be a lasting change of ${listInWords(said)} series. The more sites are watched for the same number of false alarms, the more this is so.`;
}

/** Why some are held to defaults. */
export function defaultsInWords({ defaults }: Pick<AcceptedShown, "defaults">): string | null {
  if (defaults.length === 0) return null;
  const named = defaults.map(
    ({ method, measure, streams }) =>
      `${WATCHED_WORDS[measure].name.toLowerCase()} of ${METHOD_WORDS[method]} (${counted(streams, "series", "series")})`,
  );
  return `Held to defaults, because too few series tell how days vary: ${listInWords(named)}. Defaults lie on the careful side.`;
}

/** "up 4 % (1 to 7)". */
export function slowInWords({ change, low, high }: Pick<SlowTold, "change" | "low" | "high">): string {
  const [near, far] = [low, high].map((share) => share * Math.sign(change)).sort((a, b) => a - b);
  const shown = (share: number) => (share * 100).toFixed(1).replace("-", "−");
  return `${change > 0 ? "up" : "down"} ${shown(Math.abs(change))} % (${shown(near ?? 0)} to ${shown(far ?? 0)})`;
}

function number(count: number): string {
  return count.toLocaleString("en-GB", { maximumFractionDigits: 1 });
}
