import { driftLimits } from "#server/drift/accepted";
import { delayOf } from "#server/drift/delay";
import { CLAMP, LAMBDA, LEARN } from "#server/drift/parameters";
import { scoreSeries } from "#server/drift/score";
import clamped from "../files/reference/drift/clamped.json";
import { seeded } from "../statistics/seeded";

/**
 * Days until a step is found: streams run through the engine, against the reference table and against what a page says.
 *
 * A known reference is one whose first day weighs a million times the others and whose spread is known beforehand; the
 * short one is that of a stream two months old. Answers in how many rows the mean delay is more than 15 % from the table.
 */
export function printDelays(runs: number): number {
  let far = 0;
  console.log("\npoints a month, shift   known reference: mean days (table)    60 days: found within 26 (table, page)");
  for (const row of clamped.rows.filter((one) => one.accepted === 1)) {
    const { edge } = driftLimits([{ points: row.points, before: 5000 }]);
    const rules = { learn: LEARN, lambda: LAMBDA, clamp: CLAMP, edge, spikeAt: Number.POSITIVE_INFINITY };
    const known = simulated(row.shift, null, 3000, rules, runs);
    const short = simulated(row.shift, 60, 26, rules, 4 * runs);
    const mean = known.reduce((sum, days) => sum + days, 0) / known.length;
    if (Math.abs(mean / row.meanDelay - 1) > 0.15) far++;
    const found = short.filter((days) => days <= 26).length / short.length;
    const page = delayOf(row.shift, 60, { omega: 0, rho: 0, d0: 10, s02: 1, worth: 1 }, rules).within[26]!;
    console.log(
      `${String(row.points).padStart(14)} ${row.shift.toFixed(1).padStart(6)}`,
      `${mean.toFixed(1).padStart(22)} (${row.meanDelay.toFixed(1)}), ${((100 * mean) / row.meanDelay - 100).toFixed(0)} %`.padEnd(
        44,
      ),
      `${found.toFixed(2).padStart(8)} (${row.learnt60[0]!.toFixed(2)}, ${page.toFixed(2)})`,
    );
  }
  console.log(far === 0 ? "every mean delay is within 15 % of the table" : `${far} mean delays are not within 15 %`);
  return far;
}

/** Days until the first signal after the step; one more than were watched where none came. */
function simulated(
  shift: number,
  reference: number | null,
  watched: number,
  rules: Parameters<typeof scoreSeries>[2],
  runs: number,
): number[] {
  const chance = seeded(21);
  const learnt = reference ?? 100;
  const count = learnt + watched;
  const day = Int32Array.from({ length: count }, (_, i) => i);
  const mass = new Float64Array(count).fill(1);
  const pooled = { omega: 0, rho: 0, d0: reference === null ? 1e6 : 10, s02: 1, worth: 1 };
  if (reference === null) mass[0] = 1e6;
  return Array.from({ length: runs }, () => {
    // the stream's own spread comes from the law that the moderation assumes
    const squares = Array.from({ length: 10 }, chance.normal).reduce((sum, x) => sum + x * x, 0);
    const s = reference === null ? 1 : Math.sqrt(10 / squares);
    const value = Float64Array.from(
      day,
      (i) => s * (chance.normal() / Math.sqrt(mass[i]!) + (i >= learnt ? shift : 0)),
    );
    const { crossings } = scoreSeries({ day, value, mass }, pooled, rules);
    const first = crossings.find((place) => place >= learnt);
    return first === undefined ? watched + 1 : first - learnt + 1;
  });
}
