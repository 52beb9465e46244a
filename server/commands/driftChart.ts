import { driftLimits } from "#server/drift/accepted";
import { dayChart } from "#server/drift/dayChart";
import { CLAMP, DEFAULTS, LAMBDA, LEARN, type Pooled, type Rules } from "#server/drift/parameters";
import { lifeOf } from "#server/drift/reference";
import { seriesOf, seriesOfValues } from "#server/drift/series";
import { spikeLimit } from "#server/drift/spikes";
import { type Scale, watchStream } from "#server/drift/watch";
import { ewmaSpread } from "#server/statistics/ewmaChain";
import { limitFor } from "#server/statistics/runLength";
import { dayOf } from "#server/terms/days";
import { WrongCall, WrongData } from "./command";
import type { DatedSeries } from "./datedSeries";
import type { Answer, Options } from "./watchAnswer";

/**
 * The self-starting score and its chart on one series, as a programme's streams are watched: with the values that stand in
 * while a programme is too small to tell its own, unless others are said.
 */
export function driftChart({ kind, points }: DatedSeries, said: Options): Answer {
  const { series, unusable } =
    kind === "ratio" ? seriesOf(points) : { series: seriesOfValues(points), unusable: [] as number[] };
  if (series.day.length === 0) throw new WrongData("No row can be used: every numerator is 0 or less.");
  const scale: Scale = kind === "ratio" ? "ratio" : "value";
  const pooled: Pooled = {
    omega: said.between("omega", 0, 0.99, kind === "ratio" ? DEFAULTS.omega : 0),
    rho: said.between("rho", 0, 0.99, kind === "ratio" ? DEFAULTS.rho : 0),
    d0: said.between("d0", 0, 1e9, 0),
    s02: said.between("s2", 0, 1e12, 0),
    worth: 1,
  };
  if (pooled.d0 > 0 !== pooled.s02 > 0) throw new WrongCall("Say --d0 and --s2 together: both are more than 0.");
  const { rules, meanPoints, accept } = rulesOf(points, said);
  const watched = watchStream(series, lifeOf([], []), pooled, rules, scale);
  const { omega, rho, d0, s02 } = pooled;
  const { learn, lambda, clamp, edge, spikeAt } = rules;
  return {
    chart: "drift",
    parameters: { omega, rho, d0, s2: s02, learn, lambda, clamp, edge, spikeAt, meanPoints, accept },
    points: watched.flatMap((one) =>
      dayChart(one.series, one.scored, pooled, rules, scale).map(
        ({ day, value, state, score, ewma, centre, low, high }) => {
          return {
            ...{ day, value, state, score, statistic: ewma, low: -edge, high: edge },
            ...{ expected: centre, dayLow: low, dayHigh: high },
          };
        },
      ),
    ),
    signals: watched.flatMap(({ signals, questions }) => [
      ...signals.map((signal) => {
        return { kind: "drift", day: signal.raisedOn, size: signal.change, value: signal.after, ...signal };
      }),
      ...questions.map(({ day, value, low, high, score }) => {
        const direction = value > high ? ("up" as const) : ("down" as const);
        const usual = scale === "ratio" ? Math.sqrt(low * high) : (low + high) / 2;
        const size = scale === "ratio" ? value / usual - 1 : value - usual;
        return { kind: "question", day, since: day, size, direction, value, low, high, score };
      }),
    ]),
    leftOut: unusable.map(dayOf),
  };
}

/** Limits from the false alarms accepted for this series alone, or as they are said. */
function rulesOf(points: readonly { readonly day: string }[], said: Options) {
  if (said.text("limit") !== undefined && said.text("accept") !== undefined)
    throw new WrongCall("Say either --limit or --accept.");
  const months = new Set(points.map(({ day }) => day.slice(0, 7))).size;
  const accept = said.text("limit") === undefined ? said.between("accept", 1e-6, 1000, 1) : null;
  const limits = driftLimits([{ points: points.length / Math.max(1, months), before: 0 }], accept ?? 1);
  const lambda = said.between("lambda", 0.005, 1, LAMBDA);
  const clamp = said.between("clamp", 1.5, 20, CLAMP);
  const isUsual = lambda === LAMBDA && clamp === CLAMP;
  const solved = isUsual ? limits.limit : limitFor({ chart: "ewma", lambda, clamp }, limits.meanPoints);
  const edge = ewmaSpread(lambda) * said.positive("limit", solved);
  if (edge >= clamp) throw new WrongCall(`--limit is too wide: scores held within ${clamp} never pass ${edge}.`);
  const spikeAt = said.positive("spike", spikeLimit(new Float64Array(0), limits.spikeChance));
  const learn = Math.round(said.between("learn", 0, 1000, LEARN));
  const rules: Rules = { learn, lambda, clamp, edge, spikeAt };
  return { rules, meanPoints: accept === null ? null : limits.meanPoints, accept };
}
