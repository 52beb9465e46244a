import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { asPerson } from "#db/asPerson";
import { theStore } from "#db/client";
import { ledgerHead } from "#db/queries/ledger";
import { callerOf } from "#server/api/router";
import { begin } from "#server/jobs/begin";
import { plusMonths } from "#server/terms/days";
import { OPERATOR } from "#server/terms/person";
import { readSettings, type Settings } from "../settings";
import { noteArriving } from "./demoArriving";
import type { SignIn } from "./signIns";

/** What a demo was made of, kept in its data folder until it is all there. */
interface DemoNote {
  readonly lastMonth: string;
  readonly seed: number;
  readonly done: boolean;
}

export interface Prepared {
  /** of a new demo, told once */
  readonly signIns: readonly SignIn[];
  /** sends what is left of a demo, while others are answered; null where there is none */
  readonly goOn: (() => Promise<void>) | null;
}

/**
 * Opens and migrates the database and begins its ledger.
 *
 * A new embedded data folder gets the invented demo, unless it is to stay empty: its sites and people at once, its logs
 * after the server listens. A demo that was cut short goes on.
 */
export async function prepare(say: (line: string) => void): Promise<Prepared> {
  const settings = readSettings();
  const store = await theStore();
  const isNew = (await asPerson({ store, person: OPERATOR.id }, ledgerHead)).size === 0;
  const note = demoNote(settings, isNew);
  if (note === null || note.done) {
    await begin(store, () => new Date());
    return { signIns: [], goOn: null };
  }
  const { demoLoading } = await import("#seed/loading");
  const loading = await demoLoading(note.lastMonth, note.seed);
  await begin(store, () => new Date(loading.startsOn));
  const apiAt = (clock: () => Date) => callerOf({ store, person: OPERATOR, clock, bounds: settings.bounds });
  const signIns = await loading.open(apiAt);
  keep(settings, note);
  return {
    signIns,
    goOn: async () => {
      const saying = tenths(say);
      try {
        await loading.send(apiAt, new Date(), (done, of) => {
          noteArriving({ done, of });
          saying(done, of);
        });
      } finally {
        noteArriving(null);
      }
      keep(settings, { ...note, done: true });
    },
  };
}

function notePath({ dataDir }: Settings): string {
  return join(dataDir, "demo.json");
}

function demoNote(settings: Settings, isNew: boolean): DemoNote | null {
  if (!settings.embedded) return null;
  if (isNew)
    return settings.empty
      ? null
      : { lastMonth: plusMonths(new Date().toISOString().slice(0, 7), -1), seed: 1, done: false };
  return existsSync(notePath(settings)) ? (JSON.parse(readFileSync(notePath(settings), "utf8")) as DemoNote) : null;
}

function keep(settings: Settings, note: DemoNote): void {
  writeFileSync(notePath(settings), JSON.stringify(note), { mode: 0o600 });
}

/** Says how far it is, ten times in all. */
function tenths(say: (line: string) => void): (done: number, of: number) => void {
  let last = -1;
  return (done, of) => {
    const tenth = Math.floor((10 * done) / of);
    if (tenth > last && done > 0) say(`  demo: ${done} of ${of} logs and declarations are in`);
    last = Math.max(last, tenth);
  };
}
