import { driftLimits, expectedSignals } from "#server/drift/accepted";
import { CLAMP, LAMBDA, LEARN, type PooledFrom } from "#server/drift/parameters";
import { pooledParameters } from "#server/drift/pool";
import { SCORED, SPIKE, scoreSeries } from "#server/drift/score";
import type { Series } from "#server/drift/series";
import { spikeLimit } from "#server/drift/spikes";
import { printDelays } from "./delays";
import { calmProgramme, dayInProgramme, type Habit, until } from "./programme";

/**
 * Programmes in which nothing changes: how many false signals come, against how many were promised.
 *
 * Pooled values are worked out anew every quarter from the days before it, limits every month from
 * the streams running when it begins, as in use. Run: npx tsx tests/bench/alarms.ts [seeds] [words in the name]
 */
const seeds = Number(process.argv[2] ?? 40);
const words = process.argv.slice(3);
const MONTH = 30;
/** six-day weeks with a tenth of the days missing */
const POINTS_A_MONTH = MONTH * (6 / 7) * 0.9;
const usual = { measures: 3, days: 12 * MONTH, omega: 0.6, rho: 0.3, tails: null, between: 10, renewed: null };
const habits: Habit[] = [6, 40, 200].flatMap((sites) => [
  { ...usual, sites, name: `${sites} sites, independent days`, rho: 0 },
  { ...usual, sites, name: `${sites} sites, correlated days` },
  { ...usual, sites, name: `${sites} sites, correlated days with heavy tails (t8)`, tails: 8 },
  { ...usual, sites, name: `${sites} sites, correlated days with very heavy tails (t5)`, tails: 5 },
  { ...usual, sites, name: `${sites} sites, correlated days, references of about 50 days`, renewed: 60 },
]);

console.log("programme".padEnd(56), "runs  pooled values (95 %)    with defaults (95 %)   questions");
for (const habit of habits) {
  if (!words.every((word) => habit.name.includes(word))) continue;
  const runs = Math.max(1, Math.round(seeds / (habit.sites > 100 ? 4 : 1)));
  const years = Array.from({ length: runs }, (_, seed) => watched(habit, seed + 1));
  console.log(
    habit.name.padEnd(56),
    String(runs).padStart(4),
    against(years.map((year) => year.streams)).padStart(28),
    against(years.map((year) => year.defaults)).padStart(26),
    against(years.map((year) => year.questions)).padStart(26),
  );
}
if (words.length === 0) printDelays(5 * seeds);

interface Count {
  promised: number;
  came: number;
}

/** Realised over promised with an interval over the runs, and how many were promised. */
function against(counts: readonly Count[]): string {
  const promised = counts.reduce((sum, one) => sum + one.promised, 0);
  if (promised === 0) return "-";
  const ratio = counts.reduce((sum, one) => sum + one.came, 0) / promised;
  const half =
    (1.96 * Math.sqrt(counts.reduce((sum, one) => sum + (one.came - ratio * one.promised) ** 2, 0))) / promised;
  return `${ratio.toFixed(2)} (${(ratio - half).toFixed(2)}-${(ratio + half).toFixed(2)}) of ${promised.toFixed(0)}`;
}

/** One programme watched for a year: pooled values anew every quarter, limits every month. */
function watched(habit: Habit, seed: number) {
  const measures = calmProgramme(habit, seed);
  const total = {
    streams: { promised: 0, came: 0 },
    defaults: { promised: 0, came: 0 },
    questions: { promised: 0, came: 0 },
  };
  let pooled = measures.map(() => pooledParameters([]));
  let scores: Float64Array[] = measures.map(() => new Float64Array(0));
  for (let from = 0; from < habit.days; from += MONTH) {
    const to = from + MONTH;
    const before = measures.map((streams) => streams.map((series) => until(series, from)));
    if (from % (3 * MONTH) === 0) {
      pooled = before.map(pooledParameters);
      scores = before.map((streams, i) => pooledScores(streams, pooled[i]!));
    }
    const running = measures.flatMap((streams) => streams.filter((series) => isRunning(series, from)));
    const limits = driftLimits(
      running.map((series) => ({ points: POINTS_A_MONTH, before: until(series, from).day.length - LEARN })),
    );
    measures.forEach((streams, i) => {
      const rules = {
        learn: LEARN,
        lambda: LAMBDA,
        clamp: CLAMP,
        edge: limits.edge,
        spikeAt: spikeLimit(scores[i]!, limits.spikeChance),
      };
      const drift = pooled[i]!.from === "defaults" ? total.defaults : total.streams;
      for (const series of streams.filter((one) => isRunning(one, from)).map((one) => until(one, to))) {
        const { state, crossings } = scoreSeries(series, pooled[i]!, rules);
        const first = until(series, from).day.length;
        for (let at = first; at < state.length; at++) if (state[at] === SPIKE) total.questions.came++;
        total.questions.promised += Math.max(0, state.length - Math.max(first, LEARN)) * limits.spikeChance;
        drift.came += crossings.filter((at) => at >= first).length;
        drift.promised += expectedSignals(limits.meanPoints, [{ points: state.length - first, before: first - LEARN }]);
      }
    });
  }
  return total;
}

/** Streams whose reference has begun and goes on: what a programme knows when the month begins. */
function isRunning(series: Series, from: number): boolean {
  return dayInProgramme(series, 0) <= from + 7 && dayInProgramme(series, series.day.length - 1) >= from;
}

function pooledScores(streams: readonly Series[], pooled: PooledFrom): Float64Array {
  const rules = { learn: LEARN, lambda: LAMBDA, clamp: CLAMP, edge: Number.POSITIVE_INFINITY, spikeAt: 9 };
  return Float64Array.from(
    streams.flatMap((series) => {
      const { score, state } = scoreSeries(series, pooled, rules);
      return Array.from(score).filter((_, i) => state[i]! >= SCORED);
    }),
  );
}
