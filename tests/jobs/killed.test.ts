import { spawn } from "node:child_process";
import { createInterface } from "node:readline";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { asPerson } from "#db/asPerson";
import { openStore } from "#db/client";
import type { Store } from "#db/store";
import { OPERATOR } from "#server/terms/person";
import { logNumber } from "../setup/numberedLog";
import { apiOf, BOUNDS, freshStore, KINDS, type Opened } from "../setup/stores";

const ROUNDS = 50;
/** Long enough for a send or two, so that kills fall before, within and after one; longer where few are answered in it. */
const LONGEST_MS = { embedded: 1600, postgres: 500 } as const;

/** A line of the sender: which log, and its slip. */
interface Said {
  readonly number: number;
  readonly sending: unknown;
}

describe.each(KINDS)("sending on the %s database, killed at random moments", (kind) => {
  let opened: Opened;
  const answered = new Map<number, unknown>();

  beforeAll(async () => {
    opened = await freshStore(kind);
    const from = "2001-01-01";
    await apiOf(opened.store, "2030-01-01T00:00:00Z").sites.open({
      code: "OJ",
      declarations: [
        { kind: "open", from, value: {} },
        { kind: "method", from, value: { method: "sand-pan" } },
        { kind: "numbering", from, value: { unique: "site" } },
      ],
    });
    await opened.store.close();
  }, 120_000);
  afterAll(async () => {
    const { rmSync } = await import("node:fs");
    rmSync(opened.dataDir, { recursive: true, force: true });
  });

  test(`each of ${ROUNDS} interrupted sends is wholly there or wholly not, and sent again gets the slip that was answered`, async () => {
    let next = 0;
    for (let round = 0; round < ROUNDS; round++) {
      const before = answered.size;
      const longest = answered.size < round / 4 ? 4 * LONGEST_MS[kind] : LONGEST_MS[kind];
      for (const { number, sending } of await sendUntilKilled(opened, next, Math.floor(Math.random() * longest)))
        answered.set(number, sending);
      // Every other time the last answered log is sent once more, else the one whose answer never came.
      next = Math.max(0, answered.size - (round % 2 === 0 && answered.size > before ? 1 : 0));
    }
    expect(answered.size).toBeGreaterThan(ROUNDS / 10);
    const store = await reopened(opened);
    try {
      await wholeOrNothing(store, answered);
      expect((await apiOf(store, "2030-01-01T00:00:00Z").ledger.verify()).differences).toEqual([]);
    } finally {
      await store.close();
    }
  }, 1_800_000); // a process is started for each of them, also on a busy machine
});

async function wholeOrNothing(store: Store, answered: ReadonlyMap<number, unknown>): Promise<void> {
  const { batchesOn } = await import("#db/queries/batches");
  const numbers = Array.from({ length: (answered.size + 2) * 30 }, (_, i) => String(i + 1));
  const there = await asPerson({ store, person: OPERATOR.id }, (tx) =>
    batchesOn(tx, 1, [], numbers, Number.MAX_SAFE_INTEGER),
  );
  const perLog = new Map<number, number>();
  for (const { batch } of there) {
    const log = Math.floor((Number(batch.number) - 1) / 30);
    perLog.set(log, (perLog.get(log) ?? 0) + 1);
  }
  for (const [log, count] of perLog) expect(count, `log ${log}`).toBe(30);
  for (const [number, sending] of answered) {
    expect(perLog.get(number), `log ${number} was answered`).toBe(30);
    const again = await apiOf(store, "2030-01-01T00:00:00Z").logs.send({
      site: "OJ",
      bytes: logNumber(number),
      name: "again.csv",
    });
    expect(again, `log ${number} sent again`).toEqual(sending);
  }
}

function reopened({ dataDir, databaseUrl }: Opened): Promise<Store> {
  return openStore({ dataDir, databaseUrl, databaseOwnerUrl: null });
}

/** Starts the sender at a log and kills it so many ms after it begins to send; what it had answered until then. */
function sendUntilKilled({ dataDir, databaseUrl }: Opened, first: number, afterMs: number): Promise<Said[]> {
  const words = [dataDir, databaseUrl ?? "", String(first), JSON.stringify(BOUNDS)];
  const sender = spawn(process.execPath, ["--import", "tsx", "tests/setup/sender.ts", ...words], {
    stdio: ["ignore", "pipe", "inherit"],
  });
  const said: Said[] = [];
  createInterface({ input: sender.stdout }).on("line", (line) => {
    if (line === "open") setTimeout(() => sender.kill("SIGKILL"), afterMs);
    else said.push(JSON.parse(line) as Said);
  });
  return new Promise((ended) => sender.on("close", () => ended(said)));
}
