import { Worker } from "node:worker_threads";
import type { CalmYear, Count } from "./calmYear";
import { printDelays } from "./delays";
import type { Habit } from "./programme";

/**
 * Programmes in which nothing changes: how many false signals come in a year, against how many were promised.
 *
 * Kept is: between 0.85 and 1.15 times the promised drift signals where pooled values are estimated, never above 1.15 times
 * where defaults stand in, and never above 1.15 times the promised questions about single days. Programmes of five sites
 * never leave the defaults. Two threads share the runs; each programme is printed as it is done.
 * Run: npx tsx tests/bench/alarms.ts [seeds] [words in the name of a programme, or "delays"]
 */
const seeds = Number(process.argv[2] ?? 40);
const words = process.argv.slice(3);
/** No limit, default or care was ever chosen by looking at runs from here on. */
const FIRST_SEED = 7_310_000;
const [LEAST, MOST] = [0.85, 1.15];
const usual = { measures: 3, days: 365, omega: 0.6, rho: 0.3, tails: null, between: 10, renewed: null };
const habits: Habit[] = [5, 6, 40, 200].flatMap((sites) => [
  { ...usual, sites, name: `${sites} sites, independent days`, rho: 0 },
  { ...usual, sites, name: `${sites} sites, correlated days` },
  { ...usual, sites, name: `${sites} sites, correlated days with heavy tails (t8)`, tails: 8 },
  { ...usual, sites, name: `${sites} sites, correlated days with very heavy tails (t5)`, tails: 5 },
  { ...usual, sites, name: `${sites} sites, correlated days, references of about 50 days`, renewed: 60 },
]);

const threads = [1, 2].map(() => new Worker(new URL("./alarmsThread.mjs", import.meta.url)));
const asked = habits.filter(({ name }) => words.every((word) => name.includes(word)));
let broken = 0;
const HEADS = ["pooled values", "defaults", "questions, pooled", "questions, defaults", "seconds"];
if (asked.length > 0) {
  console.log(`seeds ${FIRST_SEED + 1} to ${FIRST_SEED + seeds}: came / promised (95 %) of promised`);
  console.log("programme".padEnd(64), ...HEADS.map((head) => head.padStart(26)));
}
for (const [i, habit] of asked.entries()) {
  const began = performance.now();
  const years = await run(habit);
  const [pooled, defaults, ...questions] = [
    against(years.map(({ drift }) => drift.streams)),
    against(years.map(({ drift }) => drift.defaults)),
    against(years.map((year) => year.questions.streams)),
    against(years.map((year) => year.questions.defaults)),
  ];
  const told = [pooled, defaults, ...questions];
  const kept = (pooled?.ratio ?? 1) >= LEAST && told.every((one) => (one?.ratio ?? 0) <= MOST);
  if (!kept) broken++;
  console.log(
    `${i + 1} of ${asked.length}`.padEnd(8) + habit.name.padEnd(56),
    ...told.map((one) => (one?.text ?? "-").padStart(26)),
    ((performance.now() - began) / 1000).toFixed(0).padStart(26),
    kept ? "" : " NOT KEPT",
  );
}
for (const thread of threads) await thread.terminate();
if (asked.length > 0)
  console.log(broken === 0 ? "the promise is kept in every programme" : `the promise is not kept in ${broken}`);
const far = words.length === 0 || words.includes("delays") ? printDelays(5 * seeds) : 0;
process.exitCode = broken + far === 0 ? 0 : 1;

/** One programme's runs; each thread takes the next seed when it has finished one. */
async function run(habit: Habit): Promise<CalmYear[]> {
  const years: CalmYear[] = [];
  let next = 0;
  await Promise.all(
    threads.map(async (thread) => {
      while (next < seeds) {
        const at = next++;
        years[at] = await new Promise<CalmYear>((resolve, reject) => {
          thread.removeAllListeners();
          thread.once("message", resolve);
          thread.once("error", reject);
          thread.postMessage({ habit, seed: FIRST_SEED + 1 + at });
        });
      }
    }),
  );
  return years;
}

/** Realised over promised with an interval over the runs; null where nothing was promised. */
function against(counts: readonly Count[]): { readonly ratio: number; readonly text: string } | null {
  const promised = counts.reduce((sum, one) => sum + one.promised, 0);
  if (promised === 0) return null;
  const ratio = counts.reduce((sum, one) => sum + one.came, 0) / promised;
  const squares = counts.reduce((sum, one) => sum + (one.came - ratio * one.promised) ** 2, 0);
  const half = (1.96 * Math.sqrt(squares)) / promised;
  const interval = `${(ratio - half).toFixed(2)}-${(ratio + half).toFixed(2)}`;
  return { ratio, text: `${ratio.toFixed(3)} (${interval}) of ${promised.toFixed(0)}` };
}
