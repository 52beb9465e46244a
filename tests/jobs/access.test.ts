import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { getTableName, sql } from "drizzle-orm";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { asPerson } from "#db/asPerson";
import { RECORDED } from "#db/queries/recorded";
import { rowsOf } from "#db/rowsOf";
import { appRouter } from "#server/api/router";
import type { Person } from "#server/terms/person";
import { apiOf, bytes, freshStore, KINDS, type Opened } from "../setup/stores";

const NOW = "2031-05-02T08:00:00Z";
const LOG = (site: string) => `Date,Batch no,Fresh (kg),Dried (kg),By,Remarks
2031-04-01,1,10.0,3.3,Amara,canary-${site}
2031-04-02,2,11.0,3.5,Joy,smoke
`;

describe.each(KINDS)("access on the %s database", (kind) => {
  let opened: Opened;
  const people: Record<"officer" | "auditor" | "lead" | "ended", Person> = {
    officer: { id: "", role: "officer", site: null },
    auditor: { id: "", role: "auditor", site: null },
    lead: { id: "", role: "lead", site: 1 },
    ended: { id: "", role: "officer", site: null },
  };
  const files = { own: "", other: "", programme: "" };
  const as = (who: keyof typeof people | null, rule?: () => "yes") =>
    apiOf(opened.store, NOW, who === null ? null : people[who], rule);
  const everything = () => "yes" as const;

  beforeAll(async () => {
    opened = await freshStore(kind);
    const operator = apiOf(opened.store, NOW);
    for (const code of ["OWN", "OTHER"])
      await operator.sites.open({ code, declarations: [{ kind: "open", from: "2031-01-01", value: {} }] });
    for (const [who, role] of [
      ["officer", "officer"],
      ["auditor", "auditor"],
      ["lead", "lead"],
      ["ended", "officer"],
    ] as const) {
      const added = await operator.people.add({
        name: `${who} one`,
        role,
        ...(role === "lead" ? { site: "OWN" } : {}),
      });
      people[who] = { ...people[who], id: added.id };
    }
    await operator.people.end({ id: people.ended.id });
    for (const [key, site] of [
      ["own", "OWN"],
      ["other", "OTHER"],
    ] as const) {
      const sending = await operator.logs.send({ site, bytes: bytes(LOG(site)), name: `${site}-secret.csv` });
      if ("slip" in sending) files[key] = sending.slip.file;
    }
    const both = bytes("Date,Site,Batch no,Fresh (kg),Dried (kg)\n2031-04-03,OWN,3,10,3\n2031-04-03,OTHER,3,10,3\n");
    const sending = await operator.logs.sendBySite({ bytes: both, name: "both.csv" });
    if ("slip" in sending) files.programme = sending.slip.file;
  }, 120_000);
  afterAll(() => opened.close());

  test("a site lead sees the own site and nothing of another, which is answered like one that does not exist", async () => {
    expect((await as("lead").sites.list()).map(({ code }) => code)).toEqual(["OWN"]);
    expect(
      (await as("lead").figures.site({ site: "OWN", from: "2031-04", to: "2031-04" }))[0]?.figures["dry-yield"],
    ).toMatchObject({ known: true, restsOn: { used: 3 } });
    const answers = await Promise.all(
      ["OTHER", "NONE"].map((site) =>
        as("lead")
          .figures.site({ site, from: "2031-04", to: "2031-04" })
          .catch((trouble: Error) => [
            trouble.name,
            (trouble as { code?: string }).code,
            trouble.message.replace(site, "…"),
          ]),
      ),
    );
    expect(answers[0]).toEqual(["TRPCError", "NOT_FOUND", "There is no site …."]);
    expect(answers[1]).toEqual(answers[0]);
    const missing = "01900000-0000-7000-8000-000000000000";
    for (const file of [files.other, files.programme, missing, "nonsense"]) {
      await expect(as("lead").logs.rows({ file }), file).rejects.toMatchObject({
        code: "NOT_FOUND",
        message: "There is no such file.",
      });
    }
    expect(await as("lead").logs.rows({ file: files.own })).toHaveLength(3);
  });

  test("each role does what it may and is refused the rest", async () => {
    await expect(as(null).sites.list()).rejects.toMatchObject({ code: "UNAUTHORIZED" });
    await expect(as("auditor").logs.send({ site: "OWN", bytes: bytes("x"), name: "x" })).rejects.toMatchObject({
      code: "FORBIDDEN",
    });
    await expect(as("auditor").figures.publish({ site: "OWN", month: "2031-04" })).rejects.toMatchObject({
      code: "FORBIDDEN",
    });
    await expect(as("lead").figures.publish({ site: "OWN", month: "2031-04" })).rejects.toMatchObject({
      code: "FORBIDDEN",
    });
    await expect(as("lead").people.list()).rejects.toMatchObject({ code: "FORBIDDEN" });
    await expect(as("lead").logs.sendBySite({ bytes: bytes("x"), name: "x" })).rejects.toMatchObject({
      code: "FORBIDDEN",
    });
    await expect(
      as("lead").sites.declare({
        site: "OWN",
        declarations: [{ kind: "pans", from: "2031-01-01", value: { pans: 2 } }],
      }),
    ).rejects.toMatchObject({ code: "BAD_REQUEST" });
    expect(
      await as("lead").sites.declare({
        site: "OWN",
        declarations: [{ kind: "closed", from: "2031-04-05", to: "2031-04-05", value: { reason: "feast" } }],
      }),
    ).toEqual({ declared: 1 });
    expect(await as("officer").logs.rows({ file: files.programme })).toHaveLength(3);
    expect(await as("auditor").figures.all({ from: "2031-04", to: "2031-04" })).toHaveLength(2);
  });

  test("with the first wall removed the second one still shows a site lead nothing of another site", async () => {
    const lead = as("lead", everything);
    await expect(lead.figures.site({ site: "OTHER", from: "2031-04", to: "2031-04" })).rejects.toMatchObject({
      code: "NOT_FOUND",
    });
    await expect(lead.logs.rows({ file: files.other })).rejects.toMatchObject({ code: "NOT_FOUND" });
    expect(await lead.figures.all({ from: "2031-04", to: "2031-04" })).toHaveLength(1);
    expect(await lead.people.list()).toHaveLength(1);
    await expect(lead.sites.open({ code: "MINE", declarations: [] })).rejects.toThrow();
    await expect(lead.people.add({ name: "a friend", role: "officer" })).rejects.toThrow();
    await expect(
      as("auditor", everything).logs.send({ site: "OWN", bytes: bytes(LOG("NEW")), name: "x.csv" }),
    ).rejects.toThrow();
    await expect(as("ended", everything).figures.all({ from: "2031-04", to: "2031-04" })).resolves.toEqual([]);
  });

  test("straight SQL as a site lead finds only rows of the own site, in every table", async () => {
    const own = await asPerson({ store: opened.store, person: people.lead.id }, async (tx) => {
      const found: Record<string, unknown[]> = {};
      for (const table of [...Object.values(RECORDED).map(getTableName), "ledger", "sealed"]) {
        const rows = rowsOf<{ site: number | null; text: string }>(
          await tx.execute(sql`select to_jsonb(t) -> 'site' as site, t::text as text from ${sql.identifier(table)} t`),
        );
        found[table] = rows.filter(({ text }) => text.includes("canary-OTHER")).map(({ text }) => text);
        if (!["sites", "people", "facts"].includes(table))
          expect(new Set(rows.map(({ site }) => site)), table).toEqual(new Set(rows.length === 0 ? [] : [1]));
      }
      return found;
    });
    expect(Object.values(own).flat()).toEqual([]);
    const nobody = await asPerson({ store: opened.store, person: "01900000-0000-7000-8000-000000000000" }, async (tx) =>
      rowsOf(await tx.execute(sql`select 1 from batch_revisions`)),
    );
    expect(nobody).toEqual([]);
  });

  test("who may see what is looked up once a statement, not once a row", async () => {
    const plan = await asPerson({ store: opened.store, person: people.lead.id }, async (tx) =>
      rowsOf<{ "QUERY PLAN": string }>(await tx.execute(sql`explain (costs off) select * from batch_revisions`))
        .map((line) => line["QUERY PLAN"])
        .join("\n"),
    );
    expect(plan).toContain("InitPlan");
    expect(plan).not.toContain("SubPlan");
  });

  test("nothing that was recorded can be changed or removed, by anybody", async () => {
    const owner = await opened.store.owner();
    try {
      for (const table of [...Object.values(RECORDED).map(getTableName), "ledger"]) {
        for (const statement of [
          sql`update ${sql.identifier(table)} set ledger_index = 1`,
          sql`delete from ${sql.identifier(table)}`,
          sql`truncate ${sql.identifier(table)} cascade`,
        ]) {
          const change = table === "ledger" ? sql`update ledger set index = 1` : statement;
          const there =
            rowsOf<{ n: number }>(
              await owner.db.execute(sql`select count(*)::int as n from ${sql.identifier(table)}`),
            )[0]?.n ?? 0;
          const touchesRows = there > 0 || statement !== change;
          const tried = owner.db.execute(change).then(
            () => "done",
            (trouble: { cause?: { message: string } }) => trouble.cause?.message ?? "refused",
          );
          if (touchesRows) expect(await tried, table).toContain("keeps what was recorded");
          else await tried;
        }
      }
      const login = asPerson({ store: opened.store, person: people.officer.id }, (tx) =>
        tx.execute(sql`delete from batch_revisions`),
      );
      await expect(login).rejects.toThrow();
    } finally {
      await owner.close();
    }
  });

  test("names and remarks stand in the sealed store alone", async () => {
    const owner = await opened.store.owner();
    try {
      for (const table of [...Object.values(RECORDED).map(getTableName), "ledger"]) {
        const found = rowsOf(
          await owner.db.execute(
            sql`select 1 from ${sql.identifier(table)} t where t::text ~ 'Amara|canary|secret|officer one'`,
          ),
        );
        expect(found, table).toEqual([]);
      }
      expect(
        rowsOf(await owner.db.execute(sql`select 1 from sealed where value like '%Amara%'`)).length,
      ).toBeGreaterThan(0);
    } finally {
      await owner.close();
    }
  });

  test("erased, they are gone from the database and the disk, and everything still adds up", async () => {
    const before = await as("officer").figures.site({ site: "OTHER", from: "2031-04", to: "2031-04" });
    expect(await as("officer").logs.erase({ file: files.other, reason: "asked to by the person named" })).toEqual({
      erased: 4,
    });
    const owner = await opened.store.owner();
    try {
      expect(rowsOf(await owner.db.execute(sql`select 1 from sealed where value like '%canary-OTHER%'`))).toEqual([]);
    } finally {
      await owner.close();
    }
    const onDisk = existsSync(join(opened.dataDir, "sealed"))
      ? readdirSync(join(opened.dataDir, "sealed")).map((name) =>
          readFileSync(join(opened.dataDir, "sealed", name), "utf8"),
        )
      : [];
    expect(onDisk.filter((text) => text.includes("canary-OTHER"))).toEqual([]);
    const after = await as("officer").figures.site({ site: "OTHER", from: "2031-04", to: "2031-04" });
    expect(after[0]?.figures["dry-yield"]).toMatchObject({
      value: before[0]?.figures["dry-yield"].known && before[0].figures["dry-yield"].value,
    });
    expect((await as("officer").ledger.verify()).differences).toEqual([]);
    await expect(as("lead").logs.erase({ file: files.own, reason: "no" })).rejects.toMatchObject({ code: "FORBIDDEN" });
  });

  test("every procedure is met by the matrix: none is open to somebody who has not signed in", async () => {
    for (const [path, procedure] of Object.entries(appRouter._def.procedures)) {
      const call = path.split(".").reduce<unknown>((at, name) => (at as Record<string, unknown>)[name], as(null)) as (
        input?: unknown,
      ) => Promise<unknown>;
      await expect(call({}), path).rejects.toMatchObject({ code: "UNAUTHORIZED" });
      expect(procedure).toBeDefined();
    }
  });
});
