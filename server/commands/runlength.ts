import { RUN_LENGTH_HELP } from "#app/_words/commandHelp";
import { ewmaSpread } from "#server/statistics/ewmaChain";
import { type Begun, limitFor, meanRunLength, runLength, type WatchChart } from "#server/statistics/runLength";
import { type Io, WrongCall, wordsOf } from "./command";
import { between } from "./numbers";

/** Beyond these a chart as good as never signals, and the answer would be noise. */
const WIDEST = { individuals: 30, ewma: 7, cusum: 30 };
/** within these the run length has all the digits that are printed */
const LONGEST_MEAN = 1e9;
const LEAST_LAMBDA = 0.005;
/** with less the sums of a calm series wander, and limits for long means have hundreds of standard deviations */
const LEAST_ALLOWANCE = 0.1;

/**
 * `runlength --chart ewma, cusum or individuals`: mean and quantiles of the points until a signal, for a limit and a
 * shift in standard deviations; with `--mean` in the place of `--limit` the limit that gives this mean.
 */
export async function runlength(argv: readonly string[], io: Io): Promise<number> {
  const { values } = wordsOf(argv, {
    help: { type: "boolean" },
    chart: { type: "string" },
    lambda: { type: "string" },
    clamp: { type: "string" },
    allowance: { type: "string" },
    limit: { type: "string" },
    mean: { type: "string" },
    shift: { type: "string" },
    begun: { type: "string" },
  });
  if (values.help) {
    io.out(RUN_LENGTH_HELP);
    return 0;
  }
  const chart = chartOf(values);
  const limit = limitOf(chart, values);
  const shift = values.shift === undefined ? 0 : between(values.shift, "shift", -20, 20);
  const begun = begunOf(chart, values.begun);
  const mean = meanRunLength(chart, limit, shift, begun);
  if (!(mean >= 1 && mean < 1.01 * LONGEST_MEAN))
    throw new WrongCall("With this limit the chart as good as never signals: more than 1000000000 points on average.");
  const { quantiles } = runLength(chart, limit, shift, [0.5, 0.05, 0.25, 0.75, 0.95], begun);
  const named = Object.fromEntries(
    quantiles.map(({ share, points }) => [share === 0.5 ? "median" : `p${Math.round(share * 100)}`, points]),
  );
  const answer = { chart: chart.chart, limit, shift, mean, ...named };
  io.out(
    values.json
      ? `${JSON.stringify(answer)}\n`
      : `${Object.entries(answer)
          .map(([name, value]) => `${name}  ${value}`)
          .join("\n")}\n`,
  );
  return 0;
}

type Said = { readonly [option in "chart" | "lambda" | "clamp" | "allowance" | "limit" | "mean"]?: string };

function chartOf({ chart, lambda, clamp, allowance }: Said): WatchChart {
  if (chart !== "ewma" && (lambda ?? clamp) !== undefined)
    throw new WrongCall("--lambda and --clamp belong to --chart ewma.");
  if (chart !== "cusum" && allowance !== undefined) throw new WrongCall("--allowance belongs to --chart cusum.");
  if (chart === "individuals") return { chart };
  if (chart === "cusum") return { chart, allowance: between(allowance ?? "0.5", "allowance", 0, 10) };
  if (chart !== "ewma") throw new WrongCall("--chart is ewma, cusum or individuals.");
  return {
    chart,
    lambda: between(lambda ?? "0.1", "lambda", LEAST_LAMBDA, 1),
    clamp: clamp === undefined ? null : between(clamp, "clamp", 0.5, 20),
  };
}

/** The limit said, or the one that gives the mean said. */
function limitOf(chart: WatchChart, { limit, mean }: Said): number {
  if ((limit === undefined) === (mean === undefined)) throw new WrongCall("Say either --limit or --mean.");
  const highest = highestLimit(chart);
  if (limit !== undefined) return between(limit, "limit", 0.05, highest);
  const wanted = between(mean ?? "", "mean", 3, LONGEST_MEAN);
  if (chart.chart === "cusum" && chart.allowance < LEAST_ALLOWANCE)
    throw new WrongCall(`--mean is worked out for an --allowance of ${LEAST_ALLOWANCE} or more.`);
  return limitFor(chart, wanted);
}

/** With clamped scores an EWMA stays inside the clamp: a limit at or beyond it would never be met. */
function highestLimit(chart: WatchChart): number {
  const widest = WIDEST[chart.chart];
  if (chart.chart !== "ewma" || chart.clamp === null) return widest;
  const reached = (0.999 * chart.clamp) / ewmaSpread(chart.lambda);
  return Math.min(widest, Number(reached.toPrecision(4)));
}

function begunOf({ chart }: WatchChart, begun = "zero"): Begun {
  if (begun !== "zero" && begun !== "calm") throw new WrongCall("--begun is zero or calm.");
  if (begun === "calm" && chart === "cusum") throw new WrongCall("--begun calm is for ewma and individuals.");
  return begun;
}
