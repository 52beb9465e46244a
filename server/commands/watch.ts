import { basename } from "node:path";
import { WATCH_HELP } from "#app/_words/commandHelp";
import { type Io, WrongCall, wordsOf } from "./command";
import { datedSeries } from "./datedSeries";
import { driftChart } from "./driftChart";
import { handbookChart } from "./handbookCharts";
import { bytesOf } from "./read";
import { type Answer, optionsOf } from "./watchAnswer";

const TEXT = { type: "string" } as const;

/**
 * `watch FILE.csv`: the drift room on any dated series (columns day, numerator, denominator; or day, value). Charts of the
 * handbooks take their parameters explicitly: `--chart ewma --lambda … --target … --spread … --limit …`.
 */
export async function watch(argv: readonly string[], io: Io): Promise<number> {
  const { values, positionals } = wordsOf(argv, {
    ...{ help: { type: "boolean" }, widening: { type: "boolean" }, chart: TEXT, accept: TEXT, limit: TEXT },
    ...{ lambda: TEXT, target: TEXT, spread: TEXT, allowance: TEXT, spike: TEXT, omega: TEXT, rho: TEXT },
    ...{ d0: TEXT, s2: TEXT, learn: TEXT, clamp: TEXT },
  });
  if (values.help) {
    io.out(WATCH_HELP);
    return 0;
  }
  const [path, ...more] = positionals;
  if (path === undefined || more.length > 0) throw new WrongCall("Say which one file to watch.");
  const { chart = "drift" } = values;
  const said = optionsOf(chart, values);
  const series = datedSeries(await bytesOf(io.cwd, path), basename(path));
  const answer = chart === "drift" ? driftChart(series, said) : handbookChart(series.points, chart, said);
  io.out(values.json ? `${JSON.stringify(answer)}\n` : inLines(answer));
  return 0;
}

/** For reading: six digits are enough on a screen; `--json` has them all. */
function inLines({ chart, parameters, points, signals, leftOut }: Answer): string {
  const said = (row: object) =>
    Object.entries(row)
      .map(([name, value]) => `${name} ${typeof value === "number" ? Number(value.toPrecision(6)) : (value ?? "-")}`)
      .join("  ");
  const lines = [
    `${chart}  ${said(parameters)}`,
    ...points.map(said),
    ...signals.map((signal) => `signal  ${said(signal)}`),
    ...leftOut.map((day) => `left out  ${day}`),
  ];
  return `${lines.join("\n")}\n`;
}
