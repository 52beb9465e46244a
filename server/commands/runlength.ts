import { limitFor, runLength, type WatchChart } from "#server/statistics/runLength";
import { type Io, WrongCall, wordsOf } from "./command";

/**
 * `runlength --chart ewma, cusum or individuals`: mean and quantiles of the points until a signal, for a limit and a
 * shift in standard deviations; with `--mean` in the place of `--limit` the limit that gives this mean.
 */
export async function runlength(argv: readonly string[], io: Io): Promise<number> {
  const { values } = wordsOf(argv, {
    chart: { type: "string" },
    lambda: { type: "string" },
    clamp: { type: "string" },
    allowance: { type: "string" },
    limit: { type: "string" },
    mean: { type: "string" },
    shift: { type: "string" },
  });
  const chart = chartOf(values);
  if ((values.limit === undefined) === (values.mean === undefined))
    throw new WrongCall("Say either --limit or --mean.");
  const limit =
    values.limit === undefined ? limitFor(chart, positive(values.mean, "mean")) : positive(values.limit, "limit");
  const shift = values.shift === undefined ? 0 : finite(values.shift, "shift");
  const { mean, quantiles } = runLength(chart, limit, shift);
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

function chartOf({
  chart,
  lambda,
  clamp,
  allowance,
}: {
  chart?: string;
  lambda?: string;
  clamp?: string;
  allowance?: string;
}): WatchChart {
  if (chart === "individuals") return { chart };
  if (chart === "cusum") return { chart, allowance: allowance === undefined ? 0.5 : positive(allowance, "allowance") };
  if (chart !== "ewma") throw new WrongCall("--chart is ewma, cusum or individuals.");
  const weight = lambda === undefined ? 0.1 : positive(lambda, "lambda");
  if (weight > 1) throw new WrongCall("--lambda is more than 0 and at most 1.");
  return { chart, lambda: weight, clamp: clamp === undefined ? null : positive(clamp, "clamp") };
}

export function finite(text: string, option: string): number {
  const value = Number(text);
  if (text.trim() === "" || !Number.isFinite(value)) throw new WrongCall(`--${option} is a number, not ${text}.`);
  return value;
}

export function positive(text: string | undefined, option: string): number {
  const value = finite(text ?? "", option);
  if (value <= 0) throw new WrongCall(`--${option} is more than 0, not ${text}.`);
  return value;
}
