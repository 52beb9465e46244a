/**
 * The invented scenario under seeds that nobody tuned to: how often each story that moves a stream is found and how many
 * days that took, and how often a site without a story is flagged. The logs go in by the same door as real ones.
 *
 * npx tsx tests/bench/stories.ts [seeds, 20 by default] [first seed, 1001 by default]
 */
import postgres from "postgres";
import { openStore } from "#db/client";
import type { Store } from "#db/store";
import { scenario } from "#seed/generate";
import { openDemo, sendDemo } from "#seed/load";
import { callerOf } from "#server/api/router";
import { begin } from "#server/jobs/begin";
import { dayNumber, plusDays } from "#server/terms/days";
import { OPERATOR } from "#server/terms/person";
import type { Direction, Watched } from "#server/terms/signal";
import { throwAway } from "../setup/postgres";

const LAST_MONTH = "2026-10";
const FIRST_MONTH = "2025-11";
const [seeds, firstSeed] = [Number(process.argv[2] ?? 20), Number(process.argv[3] ?? 1001)];

/** What a story does to the site's streams, and so what finding it means. */
const MOVES: Record<string, { readonly measure: Watched; readonly direction: Direction; readonly lateDays: number }> = {
  "drying-cut-short": { measure: "dry-yield", direction: "up", lateDays: 0 },
  "leaking-hose": { measure: "fuel-intensity", direction: "up", lateDays: 14 },
  "tare-left-in": { measure: "dry-yield", direction: "up", lateDays: 14 },
};
/** Sites in whose streams nothing is put, outside the wet season. */
const QUIET = ["MS", "UF", "WH"];

const found = new Map<string, (number | null)[]>();
const note = (story: string, days: number | null) => found.set(story, [...(found.get(story) ?? []), days]);
let flagged = 0;
let watched = 0;

const started = await throwAway();
if (started === null) throw new Error("this bench needs PostgreSQL");
try {
  for (let seed = firstSeed; seed < firstSeed + seeds; seed++) await tell(seed, started.urls);
} finally {
  started.stop();
}
for (const [story, days] of found) {
  const took = days.filter((one) => one !== null).sort((a, b) => a - b);
  console.log(
    `${story}: found in ${took.length} of ${days.length} seeds, after ${took[Math.floor(took.length / 2)] ?? "–"} days (median; longest ${took.at(-1) ?? "–"})`,
  );
}
console.log(
  `quiet sites: ${flagged} signals of their own in ${watched} site-months without a story (${((12 * QUIET.length * flagged) / watched).toFixed(1)} a year for ${QUIET.length} sites)`,
);

async function tell(seed: number, urls: { ownerUrl: string; loginUrl: string }): Promise<void> {
  const store = await freshStore(urls, `stories_${seed}`);
  const demo = await scenario(LAST_MONTH, seed);
  await begin(store, () => new Date(demo.startsOn));
  const bounds = {
    bytes: 10 * 2 ** 20,
    unpackedBytes: 64 * 2 ** 20,
    rows: 20_000,
    columns: 512,
    cellCharacters: 32_767,
    sheets: 40,
  };
  const apiAt = (clock: () => Date) => callerOf({ store, person: OPERATOR, clock, bounds });
  const loading = { demo, apiAt, now: new Date("2026-11-25T00:00:00Z"), progress: () => {} };
  await openDemo(loading);
  await sendDemo(loading);
  const api = apiAt(() => new Date("2026-11-25T00:00:00Z"));
  const { signals } = await api.signals.list({ from: FIRST_MONTH, to: LAST_MONTH });
  for (const { kind, site, from, to } of demo.stories) {
    const move = MOVES[kind];
    if (move === undefined) continue;
    const until = plusDays(to, move.lateDays);
    const days = signals
      .filter(
        (signal) => signal.site === site && signal.measure === move.measure && signal.direction === move.direction,
      )
      .filter(({ raisedOn }) => raisedOn >= from && raisedOn <= until)
      .map(({ raisedOn }) => dayNumber(raisedOn) - dayNumber(from));
    note(kind, days.length === 0 ? null : Math.min(...days));
  }
  const rains = demo.stories.find(({ kind }) => kind === "wet-season");
  const inRains = (day: string) => rains !== undefined && day >= rains.from && day <= plusDays(rains.to, 45);
  const wet = signals
    .filter(({ site, raisedOn }) => site === null && inRains(raisedOn))
    .map(({ raisedOn }) => dayNumber(raisedOn) - dayNumber(rains?.from ?? raisedOn));
  note("wet-season, told once for the programme", wet.length === 0 ? null : Math.min(...wet));
  const quietMonths = 12 - 5;
  watched += QUIET.length * quietMonths;
  flagged += signals.filter(
    ({ site, raisedOn, together, confirms }) =>
      site !== null && QUIET.includes(site) && !inRains(raisedOn) && !together && confirms === null,
  ).length;
  const cattle = (await api.figures.site({ site: "CB", from: "2026-09", to: LAST_MONTH })).map(
    ({ figures }) => figures["record-usable"],
  );
  note(
    "days-not-logged, seen as a record under 75 % usable",
    cattle.every((figure) => figure.known && figure.value < 0.75) ? 0 : null,
  );
  await store.close();
}

async function freshStore(urls: { ownerUrl: string; loginUrl: string }, name: string): Promise<Store> {
  const owner = postgres(urls.ownerUrl, { max: 1, onnotice: () => {} });
  await owner.unsafe(`create database ${name}`);
  await owner.end();
  const at = (url: string) => url.replace(/\/[^/]*$/, `/${name}`);
  return openStore({ dataDir: "", databaseUrl: at(urls.loginUrl), databaseOwnerUrl: at(urls.ownerUrl) });
}
