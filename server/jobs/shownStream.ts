import { judgedMonths } from "#server/drift/completeness";
import { commonPooled, commonSeries } from "#server/drift/programmeWide";
import { lifeOf } from "#server/drift/reference";
import { seriesOf } from "#server/drift/series";
import { watchStream } from "#server/drift/watch";
import { dayNumber, daysOfMonth } from "#server/terms/days";
import type { Acknowledged, StreamName } from "#server/terms/signal";
import type { PointTold } from "#server/terms/signalTold";
import type { Shown } from "./streamShown";
import { type AnswerRow, type MonthRow, streamKey } from "./watchOrder";
import type { SiteWatched } from "./watchSites";

/** A stream of one site, or (site null) what the sites of its method have in common, made ready to be shown. */
export function shownStream(
  name: StreamName,
  sites: readonly SiteWatched[],
  months: readonly MonthRow[],
  answers: readonly AnswerRow[],
): Shown {
  const groupIn = (month: string) => {
    const held = months.findLast((one) => one.month === month);
    return held?.groups.find(({ method, measure }) => method === name.method && measure === name.measure);
  };
  const acknowledged = acknowledgedOf(answers, name);
  const like = sites
    .flatMap(({ streams }) => streams)
    .filter((one) => one.name.method === name.method && one.name.measure === name.measure);
  if (name.site !== null) {
    const own = like.find((one) => one.name.site === name.site);
    const series = own?.series ?? seriesOf([]).series;
    return { series, declared: own?.declared ?? [], acknowledged, scale: "ratio", heldIn: groupIn };
  }
  const last = months.at(-1);
  const group = last === undefined ? undefined : groupIn(last.month);
  const peers =
    group === undefined
      ? []
      : like.flatMap((one) =>
          watchStream(one.series, lifeOf(one.declared, acknowledgedOf(answers, one.name)), group.pooled, group.rules),
        );
  const series = commonSeries(peers);
  const heldIn = (month: string) => {
    const rules = groupIn(month)?.rules;
    return rules === undefined ? undefined : { pooled: commonPooled(series), rules };
  };
  return { series, declared: [], acknowledged, scale: "value", heldIn };
}

function acknowledgedOf(answers: readonly AnswerRow[], name: StreamName): Acknowledged[] {
  return answers.flatMap(({ acknowledged, ...key }) => (streamKey(key) === streamKey(name) ? [acknowledged] : []));
}

/**
 * The months of a site's record as points: the usable share of what was owed, among what the months before lead to expect.
 * A month is held against them once its log is due; until then its share alone is shown.
 */
export function recordPoints(
  site: SiteWatched,
  months: readonly MonthRow[],
  { from, to, today }: { readonly from: string; readonly to: string; readonly today: string },
): PointTold[] {
  return site.record
    .filter(({ month }) => month >= from && month <= to)
    .map(({ month, owed, missing, judgedFrom }) => {
      const held = judgedFrom > today ? undefined : months.find((one) => one.month === month);
      const until = site.record.filter((one) => one.month <= month);
      const judged = held === undefined ? undefined : judgedIn(until, held).find((one) => one.month === month);
      const told = judged?.told === true;
      return {
        day: daysOfMonth(month).to,
        value: 1 - missing / owed,
        mass: owed,
        centre: typeof judged?.usual === "number" ? 1 - judged.usual : null,
        low: typeof judged?.limit === "number" ? 1 - judged.limit : null,
        high: null,
        score: null,
        chart: null,
        limit: null,
        state: told ? ("far-outside" as const) : ("scored" as const),
        leftOutBy: null,
        raised: told ? ("down" as const) : null,
        files: [],
      };
    })
    .filter(({ day }) => dayNumber(day) > 0);
}

function judgedIn(record: SiteWatched["record"], { recordChance, recordBefore }: MonthRow) {
  return judgedMonths(record, recordChance, recordBefore ?? undefined);
}
