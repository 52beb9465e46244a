import { driftLimits } from "#server/drift/accepted";
import { pooledParameters } from "#server/drift/pool";
import { lifeOf } from "#server/drift/reference";
import { scoreFrom, scoreSeries } from "#server/drift/score";
import { cut, type Series, seriesOfColumns } from "#server/drift/series";
import { watchStream } from "#server/drift/watch";
import { limitFor } from "#server/statistics/runLength";
import { seeded } from "../statistics/seeded";
import { printWatching } from "./watching";

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
const [one, ours, read] = fastest(9, [
  () => plain(ready),
  () => columns.map((column) => scoreSeries(seriesOfColumns(column).series, pooled, rules).crossings.length),
  () => columns.map((column) => seriesOfColumns(column).series.day.length),
]);
console.log(`${points} points in ${ready.length} streams: ${SITES} sites × ${MEASURES} measures × ${YEARS} years`);
console.log(`plain recursion ${one!.toFixed(1)} ms; reading the sums ${(read! / one!).toFixed(1)} ×`);
console.log(`reading and scoring ${ours!.toFixed(0)} ms: ${(ours! / one!).toFixed(1)} × (goal 150, aim 40)`);

const streams = ready.map((series, i) => changed(series, i));
const life = lifeOf([], []);
const site = streams.slice(0, MEASURES); // the first of them has changed
const yesterday = site.map((series) => scoreFrom(null, cut(series, 0, series.day.length - 1), pooled, rules).carried);
const today = site.map((series) => cut(series, series.day.length - 1, series.day.length));
const watch = (all: readonly Series[]) => () => all.map((series) => watchStream(series, life, pooled, rules));
const [watching] = fastest(3, [watch(streams)]);
console.log(`with signals, dates, sizes and questions ${watching!.toFixed(0)} ms: ${(watching! / one!).toFixed(1)} ×`);
const [newDay, anew] = fastest(21, [
  () => today.map((series, i) => scoreFrom(yesterday[i]!, series, pooled, rules).scored.crossings.length),
  watch(site),
]);
console.log(
  `one new day of one site ${newDay!.toFixed(3)} ms from where it stopped, ${anew!.toFixed(2)} ms when all its days are watched anew (goal 5)`,
);
const [pooling] = fastest(3, [() => pooledParameters(streams.slice(0, SITES))]);
console.log(`pooled values of ${SITES} streams, once a quarter ${pooling!.toFixed(0)} ms`);
for (const clamp of [3, null]) {
  const mean = 52_000 / 0.8;
  const [solving] = fastest(5, [() => limitFor({ chart: "ewma", lambda: 0.1, clamp }, mean)]);
  console.log(`limit of the EWMA, clamp ${clamp}, for a mean of ${mean}: ${solving!.toFixed(1)} ms (goal 200)`);
}
const month = Array.from({ length: SITES * MEASURES }, () => ({ points: 26, before: 900 }));
const [kept] = fastest(5, [() => driftLimits(month)]);
console.log(`the same limits asked for again, of ${month.length} streams: ${kept!.toFixed(2)} ms`);

await printWatching();
process.exit(); // a thread that watches waits for more

/** Every tenth stream of the programme changes for good in its last year. */
function changed(series: Series, i: number): Series {
  return i % 10 === 0
    ? { ...series, value: series.value.map((value, at) => (at < 650 ? value : value + 0.08)) }
    : series;
}

/** Least processor time of each in ms, turn and turn about: what else the machine does is left out as far as can be. */
function fastest(rounds: number, works: readonly (() => unknown)[]): number[] {
  const best = works.map(() => Number.POSITIVE_INFINITY);
  for (let round = 0; round < rounds; round++) {
    works.forEach((work, i) => {
      const from = process.cpuUsage();
      work();
      const { user, system } = process.cpuUsage(from);
      best[i] = Math.min(best[i]!, (user + system) / 1000);
    });
  }
  return best;
}
