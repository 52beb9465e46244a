// The real program on a database of its own, with two site leads signed in: one who works, one who opens pages meanwhile.
import { openStore } from "#db/client";
import { callerOf } from "#server/api/router";
import { begin } from "#server/jobs/begin";
import { changePassword, personOfSession, signIn } from "#server/jobs/signIn";
import { readSettings } from "#server/settings";
import { OPERATOR } from "#server/terms/person";
import { throwAway } from "../setup/postgres";
import { addressOf, freshFolder, runStart, stopped } from "../setup/program";
import { mostHeldBy } from "./memory";

const EVERY_MS = 100;
const clock = () => new Date();

export interface Served {
  readonly address: string;
  /** of a lead's requests; `other` is the lead of another site */
  readonly headers: Readonly<Record<"cookie" | "origin" | "sec-fetch-site", string>>;
  /** opens so many pages as the other lead, one after another with pauses, and says how long each took, ms */
  pages(count: number): Promise<number[]>;
  /** opens pages for as long as something lasts */
  meanwhile<T>(act: () => Promise<T>): Promise<{ readonly answer: T; readonly ms: readonly number[] }>;
  /** the most memory that the program held so far, MB */
  heldMb(): number;
  stop(): Promise<void>;
}

/** Starts it with the sites OJ and SL, on the embedded database or on a PostgreSQL of its own. */
export async function served(database: "embedded" | "postgres"): Promise<Served> {
  const folder = freshFolder();
  const begun = database === "postgres" ? await throwAway() : null;
  if (database === "postgres" && begun === null) throw new Error("this machine has no PostgreSQL");
  const urls = begun === null ? null : { own: begun.urls.ownerUrl, in: begun.urls.loginUrl };
  const store = await openStore({
    dataDir: folder.path,
    databaseUrl: urls?.in ?? null,
    databaseOwnerUrl: urls?.own ?? null,
  });
  await begin(store, clock);
  const working = await leadOf(store, "OJ", "Amara");
  const other = await leadOf(store, "SL", "Tomas");
  await store.close();
  const running = runStart(["--port", "0", "--empty"], {
    DATA_DIR: folder.path,
    ...(urls === null ? {} : { DATABASE_URL: urls.in, DATABASE_OWNER_URL: urls.own }),
  });
  const address = await addressOf(running);
  const as = (cookie: string) => ({ cookie, origin: address, "sec-fetch-site": "same-origin" });

  async function page(path: string): Promise<number> {
    const started = performance.now();
    const answer = await fetch(`${address}${path}`, { headers: as(other), redirect: "manual" });
    await answer.text();
    if (answer.status !== 200) throw new Error(`${path} answered ${answer.status}`);
    return performance.now() - started;
  }
  async function pages(count: number): Promise<number[]> {
    const ms: number[] = [];
    for (let at = 0; at < count; at++) {
      ms.push(await page(at % 2 === 0 ? "/send" : "/sites/SL"));
      await new Promise((later) => setTimeout(later, EVERY_MS));
    }
    return ms;
  }
  async function meanwhile<T>(act: () => Promise<T>) {
    const ms: number[] = [];
    let isOver = false;
    const opening = (async () => {
      while (!isOver) ms.push(...(await pages(2)));
    })();
    try {
      return { answer: await act(), ms };
    } finally {
      isOver = true;
      await opening;
    }
  }
  return {
    address,
    headers: as(working),
    pages,
    meanwhile,
    heldMb: () => mostHeldBy(running.child.pid),
    stop: async () => {
      await stopped(running);
      folder.remove();
      begun?.stop();
    },
  };
}

/** A site and the session of its lead. */
async function leadOf(store: Parameters<typeof begin>[0], code: string, name: string): Promise<string> {
  const api = callerOf({ store, person: OPERATOR, clock, bounds: readSettings().bounds });
  const from = "1999-01-01";
  await api.sites.open({
    code,
    declarations: [
      { kind: "open", from, value: {} },
      { kind: "method", from, value: { method: "sand-pan" } },
    ],
  });
  const added = await api.people.add({ name, role: "lead", site: code });
  const entered = await signIn(store, clock, name, added.password, "127.0.0.1");
  if ("refused" in entered) throw new Error(entered.refused);
  const person = await personOfSession(store, clock, entered.token);
  if (person === undefined) throw new Error("the lead is not signed in");
  const changed = await changePassword(store, clock, person, added.password, "tamarind coast in the rain");
  if ("sentence" in changed) throw new Error(changed.sentence);
  return `evendry=${changed.token}`;
}

export function p95(times: readonly number[]): number {
  return [...times].sort((a, b) => a - b)[Math.floor(times.length * 0.95)] ?? 0;
}
