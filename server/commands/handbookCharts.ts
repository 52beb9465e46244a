import { cusumChart } from "#server/drift/cusumChart";
import { ewmaChart } from "#server/drift/ewmaChart";
import { individualsChart } from "#server/drift/individualsChart";
import { mean } from "#server/statistics/moments";
import { limitFor, type WatchChart } from "#server/statistics/runLength";
import { WrongCall } from "./command";
import type { DatedPoint } from "./datedSeries";
import type { Answer, ChartSignal, Options } from "./watchAnswer";

/** The charts of the handbooks: single values, EWMA and CUSUM about a known target, with the parameters given. */
export function handbookChart(points: readonly DatedPoint[], chart: string, said: Options): Answer {
  if (chart === "individuals") return individuals(points, said);
  if (chart === "ewma") return ewma(points, said);
  if (chart === "cusum") return cusum(points, said);
  throw new WrongCall("--chart is drift, individuals, ewma or cusum.");
}

function individuals(points: readonly DatedPoint[], said: Options): Answer {
  const values = points.map(({ value }) => value);
  if ((said.text("target") === undefined) !== (said.text("spread") === undefined))
    throw new WrongCall("--chart individuals takes --target and --spread together, or neither.");
  const width = widthOf({ chart: "individuals" }, points, said) ?? 3;
  const isGiven = said.text("target") !== undefined;
  const own = isGiven ? null : individualsChart(values, width);
  if (!isGiven && own === null)
    throw new WrongCall("A chart of single values needs two of them, or --target and --spread.");
  const centre = own?.centre ?? said.number("target");
  const spread = own === null ? said.positive("spread") : (own.high - own.centre) / width;
  const [low, high] = [centre - width * spread, centre + width * spread];
  const outside = values.flatMap((value, i) => (value < low || value > high ? [i] : []));
  return {
    chart: "individuals",
    parameters: { centre, spread, limit: width, movingRange: own?.movingRange ?? null, low, high },
    points: points.map(({ day, value }) => {
      return { day, value, score: spread > 0 ? (value - centre) / spread : null, statistic: value, low, high };
    }),
    signals: outside.map((i) => signalAt(points, i, i, centre)),
    leftOut: [],
  };
}

function ewma(points: readonly DatedPoint[], said: Options): Answer {
  const [lambda, target, spread] = [said.between("lambda", 0.005, 1), said.number("target"), said.positive("spread")];
  const width = widthOf({ chart: "ewma", lambda, clamp: null }, points, said) ?? 3;
  const values = points.map(({ value }) => value);
  const drawn = ewmaChart(values, { lambda, target, spread, width, widening: said.widening });
  const side = (i: number) => Math.sign((drawn.ewma[i] ?? target) - target);
  return {
    chart: "ewma",
    parameters: { lambda, target, spread, limit: width },
    points: points.map(({ day, value }, i) => ({
      day,
      value,
      score: (value - target) / spread,
      statistic: drawn.ewma[i] ?? null,
      low: drawn.low[i] ?? null,
      high: drawn.high[i] ?? null,
    })),
    signals: drawn.outside.map((i) =>
      signalAt(
        points,
        firstOf(i, (at) => side(at) === side(i)),
        i,
        target,
      ),
    ),
    leftOut: [],
  };
}

function cusum(points: readonly DatedPoint[], said: Options): Answer {
  const [target, allowance] = [said.number("target"), said.between("allowance", 0, Number.MAX_VALUE)];
  const spread = said.text("spread") === undefined ? null : said.positive("spread");
  const limit = cusumLimit(points, said, allowance, spread);
  const { up, down, outside } = cusumChart(
    points.map(({ value }) => value),
    { target, allowance, limit },
  );
  return {
    chart: "cusum",
    parameters: { target, allowance, limit, spread },
    points: points.map(({ day, value }, i) => {
      const [above, below] = [up[i] ?? 0, down[i] ?? 0];
      const score = spread === null ? null : (value - target) / spread;
      const statistic = above >= below ? above : -below;
      return { day, value, score, statistic, low: -limit, high: limit, up: above, down: below };
    }),
    signals: outside.map((i) => {
      const sums = (up[i] ?? 0) > limit ? up : down;
      return signalAt(
        points,
        firstOf(i, (at) => (sums[at] ?? 0) > 0),
        i,
        target,
      );
    }),
    leftOut: [],
  };
}

/** The limit said in the values' own unit, or the one that gives as many false alarms as are accepted. */
function cusumLimit(points: readonly DatedPoint[], said: Options, allowance: number, spread: number | null): number {
  if (said.text("accept") === undefined) {
    if (said.text("limit") === undefined)
      throw new WrongCall("--chart cusum needs --limit, or --accept with --spread.");
    return said.positive("limit");
  }
  if (spread === null) throw new WrongCall("--accept needs --spread: a limit follows from standard deviations.");
  if (allowance < 0.1 * spread) throw new WrongCall("--accept needs an --allowance of a tenth of --spread or more.");
  return spread * (widthOf({ chart: "cusum", allowance: allowance / spread }, points, said) ?? 0);
}

/** The limit said, or from --accept the one with so many false alarms a month; null where neither is said. */
function widthOf(chart: WatchChart, points: readonly DatedPoint[], said: Options): number | null {
  const [limit, accept] = [said.text("limit"), said.text("accept")];
  if (limit !== undefined && accept !== undefined) throw new WrongCall("Say either --limit or --accept.");
  if (limit !== undefined) return said.positive("limit");
  if (accept === undefined) return null;
  const months = new Set(points.map(({ day }) => day.slice(0, 7))).size;
  return limitFor(chart, Math.max(3, points.length / Math.max(1, months) / said.positive("accept")));
}

/** The first place from which on something holds without a break up to a place. */
function firstOf(place: number, holds: (at: number) => boolean): number {
  let first = place;
  while (first > 0 && holds(first - 1)) first--;
  return first;
}

function signalAt(points: readonly DatedPoint[], from: number, to: number, target: number): ChartSignal {
  const since = points.slice(from, to + 1);
  const size = mean(since.map(({ value }) => value)) - target;
  const [first, last] = [since[0], since.at(-1)];
  return {
    day: last?.day ?? "",
    since: first?.day ?? "",
    size,
    direction: size >= 0 ? "up" : "down",
    value: last?.value ?? null,
  };
}
