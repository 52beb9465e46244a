import { pooledParameters } from "#server/drift/pool";
import { lifeOf } from "#server/drift/reference";
import { scoreSeries } from "#server/drift/score";
import { type Series, seriesOfColumns } from "#server/drift/series";
import { watchStream } from "#server/drift/watch";
import { limitFor } from "#server/statistics/runLength";
import { seeded } from "../statistics/seeded";

/** All streams of a large programme against the plainest loop over the same numbers, in one run. */
const SITES = 500;
const MEASURES = 5;
const YEARS = 3;
const chance = seeded(1);
const columns = Array.from({ length: SITES * MEASURES }, () => {
  const working = Array.from({ length: YEARS * 365 }, (_, i) => 20_000 + i).filter((day) => day % 7 !== 3);
  return {
    day: Int32Array.from(working),
    numerator: Float64Array.from(working, () => 30 * Math.exp(0.05 * chance.normal())),
    denominator: Float64Array.from(working, () => 60 + 60 * chance.uniform()),
  };
});
const points = columns.reduce((sum, column) => sum + column.day.length, 0);
const pooled = { omega: 0.5, rho: 0.3, d0: 10, s02: 0.0025, worth: 1 };
const rules = { learn: 12, lambda: 0.1, clamp: 3, edge: 0.96, spikeAt: 9 };

function plain(series: readonly Series[]): number {
  let total = 0;
  for (const { value } of series) {
    let z = 0;
    for (let i = 0; i < value.length; i++) z += 0.1 * (value[i]! - z);
    total += z;
  }
  return total;
}

const ready = columns.map((column) => seriesOfColumns(column).series);
const times = { plain: [] as number[], ours: [] as number[], read: [] as number[] };
for (let round = 0; round < 7; round++) {
  times.plain.push(timed(() => plain(ready)));
  times.ours.push(
    timed(() => columns.map((column) => scoreSeries(seriesOfColumns(column).series, pooled, rules).crossings.length)),
  );
  times.read.push(timed(() => columns.map((column) => seriesOfColumns(column).series.day.length)));
}
const one = middle(times.plain);
console.log(`${points} points in ${ready.length} streams`);
console.log(`plain recursion ${one.toFixed(1)} ms; reading the sums ${(middle(times.read) / one).toFixed(1)} ×`);
console.log(
  `reading and scoring ${middle(times.ours).toFixed(0)} ms: ${(middle(times.ours) / one).toFixed(1)} × (goal 150, aim 40)`,
);

const streams = ready.map((series, i) => changed(series, i));
const life = lifeOf([], []);
const watching = middle(
  Array.from({ length: 3 }, () => timed(() => streams.map((series) => watchStream(series, life, pooled, rules)))),
);
console.log(`with signals, dates, sizes and questions ${watching.toFixed(0)} ms: ${(watching / one).toFixed(1)} ×`);
const site = streams.slice(0, MEASURES);
const newDay = middle(
  Array.from({ length: 21 }, () => timed(() => site.map((series) => watchStream(series, life, pooled, rules)))),
);
console.log(`one new day of one site ${newDay.toFixed(2)} ms (goal 5)`);
const pooling = middle(Array.from({ length: 3 }, () => timed(() => pooledParameters(streams.slice(0, SITES)))));
console.log(`pooled values of ${SITES} streams, once a quarter ${pooling.toFixed(0)} ms`);
for (const clamp of [3, null]) {
  const mean = 52_000 / 0.8;
  const solving = middle(
    Array.from({ length: 5 }, () => timed(() => limitFor({ chart: "ewma", lambda: 0.1, clamp }, mean))),
  );
  console.log(`limit of the EWMA, clamp ${clamp}, for a mean of ${mean}: ${solving.toFixed(1)} ms (goal 200)`);
}

/** Every tenth stream of the programme changes for good in its last year. */
function changed(series: Series, i: number): Series {
  return i % 10 === 0
    ? { ...series, value: series.value.map((value, at) => (at < 650 ? value : value + 0.08)) }
    : series;
}

function timed(work: () => unknown): number {
  const from = performance.now();
  work();
  return performance.now() - from;
}

function middle(values: number[]): number {
  return values.sort((a, b) => a - b)[values.length >> 1]!;
}
