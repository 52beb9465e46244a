import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { asPerson } from "#db/asPerson";
import { ledgerHead } from "#db/queries/ledger";
import type { Store } from "#db/store";
import { canonical } from "#server/evidence/canonical";
import { replay } from "#server/jobs/replay";
import { OPERATOR } from "#server/terms/person";
import { apiOf, bytes, freshStore, KINDS, type Opened } from "../setup/stores";

const MARCH = `Date,Batch no,Pan,Fresh (kg),Dried (kg),Minutes,LPG (kg)
2031-03-28,101,1,10.0,3.30,95,0.82
2031-03-29,102,1,11.5,3.80,99,0.91
2031-03-30,103,2,9.7,3.07,90,0.74
2031-03-31,104,1,10.0,3.20,90,0.70
2031-03-31,105,2,12.0,3.90,110,0.93
`;
/** Batch 105 was roasted on 1 April, as the site found out later. */
const CORRECTED = MARCH.replace("2031-03-31,105", "2031-04-01,105");

describe.each(KINDS)("a month sent, published and corrected on the %s database", (kind) => {
  let opened: Opened;
  const then = { march: "", published: "" };

  beforeAll(async () => {
    opened = await freshStore(kind);
    const early = apiOf(opened.store, "2031-01-02T08:00:00Z");
    await early.sites.open({ code: "OJ", declarations: declarations() });
    const april = apiOf(opened.store, "2031-04-05T10:00:00Z");
    expect(await april.logs.send({ site: "OJ", bytes: bytes(MARCH), name: "march.csv" })).toMatchObject({
      slip: { batches: { new: 5 } },
    });
    then.march = await figures(opened.store, "2031-04-05T11:00:00Z");
    const published = await apiOf(opened.store, "2031-04-11T09:00:00Z").figures.publish({
      site: "OJ",
      month: "2031-03",
    });
    then.published = published.digest;
    await apiOf(opened.store, "2031-04-20T09:00:00Z").logs.send({
      site: "OJ",
      bytes: bytes(CORRECTED),
      name: "march again.csv",
    });
  }, 120_000);
  afterAll(() => opened.close());

  test("the correction moves one batch from March to April and doubles none", async () => {
    const [march, april] = await apiOf(opened.store, "2031-04-21T00:00:00Z").figures.site({
      site: "OJ",
      from: "2031-03",
      to: "2031-04",
    });
    expect(march?.figures["dry-yield"]).toMatchObject({
      known: true,
      value: expect.closeTo((3.3 + 3.8 + 3.07 + 3.2) / (10 + 11.5 + 9.7 + 10), 14),
      restsOn: { used: 4 },
    });
    expect(april?.figures["dry-yield"]).toMatchObject({
      known: true,
      value: expect.closeTo(3.9 / 12, 14),
      restsOn: { used: 1 },
    });
  });

  test("as known before the correction, both months are what they were, bit for bit", async () => {
    expect(await figures(opened.store, "2031-04-12T00:00:00Z")).not.toBe(
      await figures(opened.store, "2031-04-21T00:00:00Z"),
    );
    const again = await figures(opened.store, "2031-04-05T11:00:00Z");
    expect(again).toBe(then.march);
    const [march] = JSON.parse(again) as [{ figures: { "dry-yield": { restsOn: { used: number } } } }];
    expect(march.figures["dry-yield"].restsOn.used).toBe(5);
  });

  test("what was published stands beside what is known now", async () => {
    const published = await apiOf(opened.store, "2031-04-21T00:00:00Z").figures.published({
      site: "OJ",
      month: "2031-03",
    });
    expect(published).toMatchObject([{ digest: then.published, edition: expect.any(String) }]);
  });

  test("everything worked out again from the originals is the same", async () => {
    const found = await apiOf(opened.store, "2031-04-21T00:00:00Z").ledger.verify();
    expect(found.differences).toEqual([]);
    expect(found.checked).toMatchObject({ records: 5, files: 2, rows: 12, publications: 1 });
  });

  if (kind === "embedded") {
    test("built again from inbox and journal, everything is the same, bit for bit", async () => {
      const again = await freshStore("embedded", { bare: true });
      expect(await replay(again.store, opened.dataDir)).toBe(5);
      const [head, headAgain] = await Promise.all(
        [opened.store, again.store].map((store) => asPerson({ store, person: OPERATOR.id }, ledgerHead)),
      );
      expect(headAgain).toEqual(head);
      for (const time of ["2031-04-05T11:00:00Z", "2031-04-21T00:00:00Z"])
        expect(await figures(again.store, time)).toBe(await figures(opened.store, time));
      await again.close();
    });
  }
});

function declarations() {
  const from = "2031-01-01";
  return [
    { kind: "open", from, value: {} },
    { kind: "name", from, value: { name: "Old Jetty" } },
    { kind: "method", from, value: { method: "sand-pan" } },
    { kind: "numbering", from, value: { unique: "site" } },
    { kind: "schedule", from, value: { weekdays: [1, 2, 3, 4, 5, 6, 7], perDay: 2, of: "loads" } },
    { kind: "due", from, value: { dayOfMonth: 10 } },
    { kind: "scale-step", key: "dried", from, value: { kg: 0.01 } },
  ] as const satisfies unknown[];
}

async function figures(store: Store, asOf: string): Promise<string> {
  return canonical(
    await apiOf(store, "2031-05-01T00:00:00Z").figures.site({ site: "OJ", from: "2031-03", to: "2031-04", asOf }),
  );
}
