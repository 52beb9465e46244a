import { basename } from "node:path";
import { driftLimits } from "#server/drift/accepted";
import { cusumChart } from "#server/drift/cusumChart";
import { ewmaChart } from "#server/drift/ewmaChart";
import { individualsChart } from "#server/drift/individualsChart";
import { CLAMP, DEFAULTS, LAMBDA, LEARN } from "#server/drift/parameters";
import { lifeOf } from "#server/drift/reference";
import { seriesOf, seriesOfValues } from "#server/drift/series";
import { spikeLimit } from "#server/drift/spikes";
import { watchStream } from "#server/drift/watch";
import { dayOf } from "#server/terms/days";
import { type Io, WrongCall, wordsOf } from "./command";
import { type DatedSeries, datedSeries } from "./datedSeries";
import { bytesOf } from "./read";
import { finite, positive } from "./runlength";

/**
 * `watch FILE.csv`: the drift room on any dated series (columns day, numerator, denominator; or day, value). Charts of the
 * handbooks take their parameters explicitly: `--chart ewma --target … --spread … --limit …`.
 */
export async function watch(argv: readonly string[], io: Io): Promise<number> {
  const { values, positionals } = wordsOf(argv, {
    chart: { type: "string" },
    accept: { type: "string" },
    lambda: { type: "string" },
    target: { type: "string" },
    spread: { type: "string" },
    limit: { type: "string" },
    allowance: { type: "string" },
    widening: { type: "boolean" },
  });
  const [path] = positionals;
  if (path === undefined) throw new WrongCall("Say which file to watch.");
  const series = datedSeries(await bytesOf(io.cwd, path), basename(path));
  const { chart = "drift", accept = "1" } = values;
  const number = (name: "lambda" | "target" | "spread" | "limit" | "allowance", otherwise?: number): number => {
    const text = values[name];
    if (text !== undefined) return finite(text, name);
    if (otherwise === undefined) throw new WrongCall(`--chart ${chart} needs --${name}.`);
    return otherwise;
  };
  const answer = answerOf(series, chart, positive(accept, "accept"), number, values.widening === true);
  io.out(values.json ? `${JSON.stringify(answer)}\n` : inLines(answer));
  return 0;
}

interface Answer {
  readonly chart: string;
  readonly parameters: Readonly<Record<string, number | null>>;
  readonly points: readonly Readonly<Record<string, string | number | null>>[];
  readonly signals: readonly Readonly<Record<string, unknown>>[];
}

type Asked = (name: "lambda" | "target" | "spread" | "limit" | "allowance", otherwise?: number) => number;

function answerOf(series: DatedSeries, chart: string, accept: number, number: Asked, widening: boolean): Answer {
  const values = series.points.map(({ value }) => value);
  const days = series.points.map(({ day }) => day);
  const signals = (outside: readonly number[]) =>
    outside.map((place) => ({ day: days[place] ?? "", value: values[place] ?? null }));
  if (chart === "drift") return drift(series, accept);
  if (chart === "individuals") {
    const shown = individualsChart(values, number("limit", 3));
    if (shown === null) throw new WrongCall("A chart of single values needs two of them.");
    const { centre, movingRange, low, high, outside } = shown;
    return {
      chart,
      parameters: { centre, movingRange, low, high },
      points: values.map((value, i) => ({ day: days[i] ?? "", value, low, high })),
      signals: signals(outside),
    };
  }
  if (chart === "ewma") {
    const given = {
      lambda: number("lambda"),
      target: number("target"),
      spread: number("spread"),
      width: number("limit", 3),
      widening,
    };
    const { ewma, low, high, outside } = ewmaChart(values, given);
    const { widening: _said, ...parameters } = given;
    return {
      chart,
      parameters,
      points: values.map((value, i) => ({
        day: days[i] ?? "",
        value,
        statistic: ewma[i] ?? null,
        low: low[i] ?? null,
        high: high[i] ?? null,
      })),
      signals: signals(outside),
    };
  }
  if (chart === "cusum") {
    const given = { target: number("target"), allowance: number("allowance"), limit: number("limit") };
    const { up, down, outside } = cusumChart(values, given);
    return {
      chart,
      parameters: given,
      points: values.map((value, i) => ({
        day: days[i] ?? "",
        value,
        up: up[i] ?? null,
        down: down[i] ?? null,
        limit: given.limit,
      })),
      signals: signals(outside),
    };
  }
  throw new WrongCall("--chart is drift, individuals, ewma or cusum.");
}

/** The self-starting score and its chart, with the values that stand in while a programme is too small to tell its own. */
function drift(series: DatedSeries, accept: number): Answer {
  const isRatio = series.kind === "ratio";
  const read = isRatio ? seriesOf(series.points).series : seriesOfValues(series.points);
  const months = new Set(series.points.map(({ day }) => day.slice(0, 7))).size;
  const limits = driftLimits([{ points: series.points.length / Math.max(1, months), before: 0 }], accept);
  const pooled = isRatio ? DEFAULTS : { ...DEFAULTS, omega: 0, rho: 0 };
  const rules = {
    learn: LEARN,
    lambda: LAMBDA,
    clamp: CLAMP,
    edge: limits.edge,
    spikeAt: spikeLimit(new Float64Array(0), limits.spikeChance),
  };
  const watched = watchStream(read, lifeOf([], []), pooled, rules, isRatio ? "ratio" : "value");
  const points = watched.flatMap(({ series: { day, value }, scored }) =>
    [...day].map((number, i) => ({
      day: dayOf(number),
      value: isRatio ? Math.exp(value[i] ?? Number.NaN) : (value[i] ?? null),
      score: settled(scored.score[i]),
      statistic: settled(scored.ewma[i]),
      low: -limits.edge,
      high: limits.edge,
    })),
  );
  const { omega, rho, d0 } = pooled;
  return {
    chart: "drift",
    parameters: {
      omega,
      rho,
      d0,
      learn: LEARN,
      lambda: LAMBDA,
      clamp: CLAMP,
      edge: limits.edge,
      spikeAt: rules.spikeAt,
      meanPoints: limits.meanPoints,
      accept,
    },
    points,
    signals: watched.flatMap(({ signals, questions }) => [
      ...signals.map((signal) => ({ kind: "drift", ...signal })),
      ...questions.map((question) => ({ kind: "question", ...question })),
    ]),
  };
}

function settled(value: number | undefined): number | null {
  return value === undefined || Number.isNaN(value) ? null : value;
}

function inLines({ chart, parameters, points, signals }: Answer): string {
  const said = (row: object) =>
    Object.entries(row)
      .map(([name, value]) => `${name} ${value}`)
      .join("  ");
  return `${[`${chart}  ${said(parameters)}`, ...points.map(said), ...signals.map((signal) => `signal  ${said(signal)}`)].join("\n")}\n`;
}
