import postgres from "postgres";
import { openStore } from "#db/client";
import { type DemoScenario, scenario } from "#seed/generate";
import { type Api, openDemo, sendDemo } from "#seed/load";
import type { StoryKind } from "#seed/stories";
import { callerOf } from "#server/api/router";
import { begin } from "#server/jobs/begin";
import { monthsBetween, plusMonths } from "#server/terms/days";
import { OPERATOR } from "#server/terms/person";

export const LAST_MONTH = "2026-10";
export const MONTHS = monthsBetween(plusMonths(LAST_MONTH, -11), LAST_MONTH);
const NOW = new Date("2026-11-25T00:00:00Z");
const BOUNDS = {
  bytes: 10 * 2 ** 20,
  unpackedBytes: 64 * 2 ** 20,
  rows: 20_000,
  columns: 512,
  cellCharacters: 32_767,
  sheets: 40,
};

/** A programme whose logs were sent by the door that everybody uses, and its procedures as an officer calls them. */
export interface Loaded {
  readonly demo: DemoScenario;
  readonly api: Api;
  readonly sites: readonly string[];
  /** when a site's log of a month first arrived; null where none did */
  readonly arrived: (site: string, month: string) => string | null;
  readonly close: () => Promise<void>;
}

/** Loads the scenario of a seed, without some kinds of stories, into a new database of its own. */
export async function loaded(
  seed: number,
  urls: { readonly ownerUrl: string; readonly loginUrl: string },
  without: readonly StoryKind[],
): Promise<Loaded> {
  const name = `stories_${seed}_${without.length}`;
  const owner = postgres(urls.ownerUrl, { max: 1, onnotice: () => {} });
  await owner.unsafe(`create database ${name}`);
  await owner.end();
  const at = (url: string) => url.replace(/\/[^/]*$/, `/${name}`);
  const store = await openStore({
    dataDir: "",
    databaseUrl: at(urls.loginUrl),
    databaseOwnerUrl: at(urls.ownerUrl),
  });
  const demo = await scenario(LAST_MONTH, seed, null, without);
  await begin(store, () => new Date(demo.startsOn));
  const apiAt = (clock: () => Date) => callerOf({ store, person: OPERATOR, clock, bounds: BOUNDS });
  const loading = { demo, apiAt, now: NOW, progress: () => {} };
  await openDemo(loading);
  await sendDemo(loading);
  return {
    demo,
    api: apiAt(() => NOW),
    sites: demo.sites.map(({ code }) => code),
    arrived: (site, month) => demo.logs.find((log) => log.site === site && log.month === month)?.sentOn ?? null,
    close: () => store.close(),
  };
}

/** Something that the product says of a site, or of the programme (null): about which day, and when it could be read first. */
export interface Finding {
  readonly site: string | null;
  readonly on: string;
  readonly told: string | null;
}

/** Looks through a whole programme for one kind of thing; knows nothing of where a story was put. */
export type Finder = (programme: Loaded) => Promise<Finding[]>;
