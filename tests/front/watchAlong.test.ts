import { expect, test } from "vitest";
import { asPerson } from "#db/asPerson";
import { recordsAfter } from "#db/queries/ledger";
import { watchAlong } from "#server/front/watchAlong";
import { OPERATOR } from "#server/terms/person";
import { apiOf, bytes, freshStore } from "../setup/stores";

test("logs that came are watched by themselves once they have settled, at the ledger's own time", async () => {
  const opened = await freshStore("embedded");
  const troubles: unknown[] = [];
  const stop = watchAlong(opened.store, (what) => troubles.push(what));
  try {
    const api = apiOf(opened.store, "2031-02-03T08:00:00Z");
    const from = "2031-01-01";
    await api.sites.open({ code: "OJ", declarations: [{ kind: "method", from, value: { method: "sand-pan" } }] });
    const log = "Date,Batch no,Fresh (kg),Dried (kg)\n2031-01-06,1,10,3.2\n2031-01-07,2,11,3.5\n";
    await api.logs.send({ site: "OJ", bytes: bytes(log), name: "January.csv" });
    const commands = () =>
      asPerson({ store: opened.store, person: OPERATOR.id }, async (tx) =>
        (await recordsAfter(tx, 0, 50)).map(({ command, at }) => `${command} ${new Date(at).toISOString()}`),
      );
    await expect.poll(commands, { timeout: 240_000, interval: 500 }).toContain("watch 2031-02-03T08:00:00.000Z");
    expect(troubles).toEqual([]);
  } finally {
    await stop();
    await opened.close();
  }
}, 300_000); // its thread starts beside whatever else runs
