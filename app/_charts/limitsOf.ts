import type { DrawnDay } from "./changeDrawn";
import type { Level } from "./timePanel";

/** The limits that days were held to, as levels: one for each run of days with the same. */
export function limitsOf(days: readonly Pick<DrawnDay, "day" | "limit">[]): Level[] {
  const runs: { from: string; to: string; value: number }[] = [];
  for (const { day, limit } of days) {
    const run = runs.at(-1);
    if (limit === null) continue;
    if (run !== undefined) run.to = day;
    if (run?.value !== limit) runs.push({ from: day, to: day, value: limit });
  }
  return runs;
}
