import { readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { type SQL, sql } from "drizzle-orm";
import { drizzle } from "drizzle-orm/postgres-js";
import postgres from "postgres";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { apiOf, bytes, freshStore, KINDS, type Opened } from "../setup/stores";

const NOW = "2031-05-02T08:00:00Z";
const LOG = `Date,Batch no,Fresh (kg),Dried (kg),Minutes,Firewood (kg),Remarks
2031-04-01,1,10.0,3.3,90,1.2,fine
2031-04-02,2,11.0,3.5,95,1.3,
2031-04-03,3,12.0,,95,1.3,weighed tomorrow
2031-04-04,4,about ten,3.1,90,1.2,
Total,,33.0,6.8,,,
`;

describe.each(KINDS)("verify on the %s database", (kind) => {
  let opened: Opened;

  beforeEach(async () => {
    opened = await freshStore(kind);
    const api = apiOf(opened.store, NOW);
    const from = "2031-01-01";
    await api.sites.open({
      code: "OJ",
      declarations: [
        { kind: "open", from, value: {} },
        { kind: "method", from, value: { method: "sand-pan" } },
      ],
    });
    await api.logs.send({ site: "OJ", bytes: bytes(LOG), name: "april.csv" });
    await api.figures.publish({ site: "OJ", month: "2031-04" });
  }, 120_000);
  afterEach(() => opened.close());

  const differences = async () =>
    (await apiOf(opened.store, NOW).ledger.verify()).differences.map(
      ({ what, where }) => `${what}: ${where.replace(/[0-9a-f-]{36}/, "…")}`,
    );

  /** Changes rows as nobody should be able to: past every trigger. */
  async function damage(statement: SQL): Promise<void> {
    if (opened.superUrl === null) {
      await opened.store.db.transaction(async (tx) => {
        await tx.execute(sql`set local session_replication_role = 'replica'`);
        await tx.execute(statement);
      });
      return;
    }
    const client = postgres(opened.superUrl, { max: 1, onnotice: () => {} });
    const db = drizzle(client);
    await db.execute(sql`set session_replication_role = 'replica'`);
    await db.execute(statement);
    await client.end();
  }

  test("finds nothing where nothing was touched", async () => {
    expect(await differences()).toEqual([]);
  });

  test("names a weight that was changed in the table, by its record, its sums and the published month", async () => {
    await damage(sql`update batch_revisions set dried_kg = 3.4, dried_exact = '3.4' where number = '1'`);
    expect(await differences()).toEqual(["ledger: record 3", "sum: OJ, days of 2031-04", "sum: OJ 2031-04"]);
  });

  test("names a sum that was changed, and the published month that no longer comes out", async () => {
    await damage(sql`update day_sums set num = 3.4 where measure = 'dry-yield' and day = '2031-04-01'`);
    expect(await differences()).toEqual([
      "ledger: record 3",
      "sum: OJ, days of 2031-04",
      "publication: OJ 2031-04, record 4",
    ]);
  });

  test("names a row whose fate was changed", async () => {
    await damage(sql`update rows set fate = 'set-aside' where row = 2`);
    expect(await differences()).toEqual(["ledger: record 3", "reading: file …, log row 2"]);
  });

  test("names a held row that was made to count", async () => {
    await damage(sql`update rows set fate = 'counted' where fate = 'held'`);
    expect(await differences()).toEqual(["ledger: record 3", "reading: file …, log row 5"]);
  });

  test("names a record that was rewritten, and every record after one that was taken out", async () => {
    await damage(sql`update ledger set record = replace(record, 'send', 'sent') where index = 3`);
    expect(await differences()).toContain("ledger: record 3");
    await damage(sql`delete from ledger where index = 2`);
    expect(await differences()).toContain("ledger: record 3");
  });

  test("names an original whose bytes are others", async () => {
    if (kind === "postgres") await damage(sql`update file_bytes set bytes = 'x'`);
    else {
      const [folder = ""] = readdirSync(join(opened.dataDir, "inbox"));
      const [file = ""] = readdirSync(join(opened.dataDir, "inbox", folder));
      writeFileSync(join(opened.dataDir, "inbox", folder, file), "x");
    }
    expect(await differences()).toEqual(["original: file …"]);
  });

  test("names fuel that was changed", async () => {
    await damage(sql`update fuel_spans set best = best * 2`);
    expect(await differences()).toContain("fuel: OJ");
  });
});
