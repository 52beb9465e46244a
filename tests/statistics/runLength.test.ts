import { expect, test } from "vitest";
import { cusumChain } from "#server/statistics/cusumChain";
import { ewmaSpread } from "#server/statistics/ewmaChain";
import { normalBelow } from "#server/statistics/normal";
import { meanRun } from "#server/statistics/runChain";
import { limitFor, meanRunLength, runLength, stillQuiet, type WatchChart } from "#server/statistics/runLength";
import clamped from "../files/reference/drift/clamped.json";
import limits from "../files/reference/drift/limits.json";
import plain from "../files/reference/drift/plainCharts.json";
import tables from "../files/reference/drift/runLength.json";
import { seeded } from "./seeded";

const CLAMPED: WatchChart = { chart: "ewma", lambda: 0.1, clamp: 3 };

function chartOf(row: { chart: string; lambda?: number; allowance?: number; weight?: number }): WatchChart {
  if (row.chart === "individuals") return { chart: "individuals" };
  if (row.chart === "ewma") return { chart: "ewma", lambda: row.lambda ?? row.weight!, clamp: null };
  return { chart: "cusum", allowance: row.allowance ?? row.weight! };
}

test.each(tables.published)("mean run lengths are those of $source", (row) => {
  row.shift.forEach((shift, i) => {
    const printed = row.mean[i]!;
    // half a unit of the last digit given: 499.86 within 0.005, 8.068 within 0.0005
    const within = 0.55 * 10 ** -(String(printed).split(".")[1] ?? "").length;
    expect(Math.abs(meanRunLength(chartOf(row), row.limit, shift) - printed), `shift ${shift}`).toBeLessThan(within);
  });
});

test.each(tables.oneSided)("one CUSUM alone has the mean run lengths of $source", (row) => {
  row.shift.forEach((shift, i) => {
    const mean = meanRun(cusumChain(row.allowance, row.limit, shift));
    // the papers' own ways are good to about a part in a thousand: 117.59, 117.6 and 117.4 are printed for one figure
    expect(Math.abs(mean / row.mean[i]! - 1), `shift ${shift}`).toBeLessThan(0.0018);
  });
});

test.each(tables.twoSided)("two CUSUMs together have the mean run length of $source", (row) => {
  const mean = meanRunLength({ chart: "cusum", allowance: row.allowance }, row.limit, row.shift);
  expect(Math.abs(mean / row.mean - 1)).toBeLessThan(0.001);
});

test.each(tables.scoreLimits)("mean run lengths are those of $source", ({ lambda, edge, mean }) => {
  lambda.forEach((weight, i) => {
    const limit = edge / ewmaSpread(weight);
    const ours = meanRunLength({ chart: "ewma", lambda: weight, clamp: null }, limit, 0);
    expect(Math.abs(ours / mean[i]! - 1), `${weight}`).toBeLessThan(0.0005);
  });
});

test.each(plain.rows)("$chart $weight, a mean of $mean: delays of a shift of $shift in a long calm", (row) => {
  const chart = chartOf(row);
  if (row.shift === 1) expect(Math.abs(limitFor(chart, row.mean) - row.limit)).toBeLessThan(1e-4);
  if (row.chart === "cusum") return; // its two sums have no joint chain here: the limit alone is checked
  expect(Math.abs(meanRunLength(chart, row.limit, row.shift, "calm") / row.meanDelay - 1)).toBeLessThan(0.001);
  const quiet = stillQuiet(chart, row.limit, row.shift, "calm");
  expect(Math.abs(1 - quiet(13) - row.within13)).toBeLessThan(0.001);
  expect(Math.abs(1 - quiet(26) - row.within26)).toBeLessThan(0.001);
  expect(Math.abs(1 - quiet(52) - row.within52)).toBeLessThan(0.001);
});

test.each(tables.limits)("limits are those of $source", (row) => {
  row.limit.forEach((limit, i) => {
    const chart = chartOf({
      chart: row.chart,
      ...(row.lambda ? { lambda: row.lambda[i]! } : { allowance: row.allowance![i]! }),
    });
    if (Array.isArray(row.mean)) {
      expect(meanRunLength(chart, limit, 0)).toBeCloseTo(row.mean[i]!, 1);
      expect(meanRunLength(chart, limit, 1)).toBeCloseTo(row.meanAtOne![i]!, 2);
    } else expect(Math.abs(limitFor(chart, row.mean) - limit)).toBeLessThan(row.chart === "ewma" ? 1e-5 : 6e-4);
  });
});

test.each(limits.rows)("$chart $weight with a mean of $mean has the reference limit and delays", (row) => {
  const chart = chartOf(row);
  expect(Math.abs(limitFor(chart, row.mean) - row.limit)).toBeLessThan(2e-6);
  [0.25, 0.5, 1, 2, 3].forEach((shift, i) => {
    expect(Math.abs(meanRunLength(chart, row.limit, shift) / row.zero[i]! - 1), `shift ${shift}`).toBeLessThan(1e-5);
  });
  if (row.chart === "cusum") return;
  [0.5, 1, 2, 3].forEach((shift, i) => {
    expect(Math.abs(meanRunLength(chart, row.limit, shift, "calm") / row.calm[i]! - 1), `${shift}`).toBeLessThan(1e-5);
  });
});

test.each(clamped.rows)("clamped scores: mean $mean, shift $shift", (row) => {
  const limit = limitFor(CLAMPED, row.mean);
  expect(Math.abs(limit - row.limit)).toBeLessThan(0.001);
  const quiet = stillQuiet(CLAMPED, limit, row.shift, "calm");
  expect(Math.abs(meanRunLength(CLAMPED, limit, row.shift, "calm") / row.meanDelay - 1)).toBeLessThan(0.001);
  expect(runLength(CLAMPED, limit, row.shift, [0.5], "calm").quantiles[0]!.points).toBe(row.medianDelay);
  expect(1 - quiet(26)).toBeCloseTo(row.within26, 2);
  expect(1 - quiet(52)).toBeCloseTo(row.within52, 2);
});

test.each([
  [2, 3, 0],
  [2.5, 2, 0.5],
  [3.546, 3, 1],
  [3.2, 3, 3],
])(
  "a clamped EWMA at limit %d, clamp %d, shift %d agrees with cells extrapolated to no width",
  (limit, clamp, shift) => {
    const ours = meanRunLength({ chart: "ewma", lambda: 0.1, clamp }, limit, shift);
    const cells = [301, 401, 501, 601].map((count) => byCells(count, 0.1, limit, clamp, shift));
    const spread = Math.max(...cells) - Math.min(...cells);
    const middle = (Math.max(...cells) + Math.min(...cells)) / 2;
    expect(Math.abs(ours / middle - 1)).toBeLessThan(0.001 + spread / middle);
  },
);

test("quantiles of the run length are those of simulated charts", () => {
  const chance = seeded(11);
  const charts: [WatchChart, number, number][] = [
    [CLAMPED, 2.2, 0],
    [{ chart: "cusum", allowance: 0.5 }, 4, 0],
    [{ chart: "cusum", allowance: 0.25 }, 5, 0.25],
  ];
  for (const [chart, limit, shift] of charts) {
    const runs = Array.from({ length: 6000 }, () => simulatedRun(chart, limit, shift, chance.normal)).sort(
      (a, b) => a - b,
    );
    const expected = runLength(chart, limit, shift);
    expect(Math.abs(runs.reduce((a, b) => a + b) / runs.length / expected.mean - 1)).toBeLessThan(0.04);
    for (const { share, points } of expected.quantiles) {
      const reached = runs.filter((run) => run <= points).length / runs.length;
      expect(Math.abs(reached - share), `${chart.chart} ${share}`).toBeLessThan(0.022);
    }
  }
});

test("the individuals chart is geometric", () => {
  const { mean, quantiles } = runLength({ chart: "individuals" }, 3, 0, [0.5]);
  expect(mean).toBeCloseTo(370.3983, 3);
  expect(quantiles[0]!.points).toBe(Math.ceil(Math.log(0.5) / Math.log(1 - 1 / mean)));
});

test("a longer mean takes a wider limit, whatever the chart", () => {
  for (const chart of [CLAMPED, { chart: "cusum", allowance: 0.5 }, { chart: "individuals" }] satisfies WatchChart[]) {
    let before = 0;
    for (const mean of [20, 370, 5000, 200_000]) {
      const limit = limitFor(chart, mean);
      expect(limit).toBeGreaterThan(before);
      expect(Math.abs(meanRunLength(chart, limit, 0) / mean - 1)).toBeLessThan(1e-7);
      before = limit;
    }
  }
});

test("a limit that clamped scores never reach is refused", () => {
  expect(() => meanRunLength({ chart: "ewma", lambda: 0.5, clamp: 1 }, 3, 0)).toThrow("never pass");
  expect(() => limitFor(CLAMPED, 0.5)).toThrow("more than one point");
});

/** The chart cut into cells (Brook & Evans 1972): coarse, and made in another way than ours. */
function byCells(count: number, lambda: number, limit: number, clamp: number, shift: number): number {
  const edge = limit * ewmaSpread(lambda);
  const width = (2 * edge) / count;
  const at = Array.from({ length: count }, (_, i) => -edge + width * (i + 0.5));
  const below = (x: number) => (x < -clamp ? 0 : x >= clamp ? 1 : normalBelow(x - shift));
  const step = at.map((z) =>
    at.map(
      (y) => below((y + width / 2 - (1 - lambda) * z) / lambda) - below((y - width / 2 - (1 - lambda) * z) / lambda),
    ),
  );
  let values = at.map(() => 1);
  let total = 1;
  let alive = 1;
  const middle = (count - 1) / 2;
  for (let point = 0; alive > 1e-6 && point < 20_000; point++) {
    const next = step.map((row) => row.reduce((sum, chance, j) => sum + chance * values[j]!, 0));
    const ratio = next[middle]! / values[middle]!;
    values = next;
    alive = next[middle]!;
    total += alive;
    if (point === 150) return total + (alive * ratio) / (1 - ratio);
  }
  return total;
}

function simulatedRun(chart: WatchChart, limit: number, shift: number, normal: () => number): number {
  let [up, down] = [0, 0];
  for (let point = 1; ; point++) {
    const score = normal() + shift;
    if (chart.chart === "ewma") {
      up += chart.lambda * (Math.max(-chart.clamp!, Math.min(chart.clamp!, score)) - up);
      if (Math.abs(up) > limit * ewmaSpread(chart.lambda)) return point;
    } else if (chart.chart === "cusum") {
      up = Math.max(0, up + score - chart.allowance);
      down = Math.max(0, down - score - chart.allowance);
      if (up > limit || down > limit) return point;
    }
  }
}
