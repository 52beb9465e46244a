import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { Person } from "#server/terms/person";
import { apiOf, bytes, freshStore, KINDS, type Opened } from "../setup/stores";

const NOW = "2031-05-02T08:00:00Z";
const LOG = `Date,Batch no,Fresh (kg),Dried (kg)
2031-04-01,1,10,3.3
2031-04-02,2,3.500,1.1
2031-04-03,3,about ten,3.1
2031-04-04,4,12,3.9
`;
const BOTH =
  "Date,Site,Batch no,Fresh (kg),Dried (kg)\n2031-04-05,OJ,5,10,3\n2031-04-05,SL,1,=1+1,3\n2031-04-06,SL,2,9,3\n";

describe.each(KINDS)("the history of what was sent on the %s database", (kind) => {
  let opened: Opened;
  const lead: Person = { id: "", role: "lead", site: 1 };
  const officer: Person = { id: "", role: "officer", site: null };
  const people = { lead, officer };
  let file = "";
  let programme = "";
  const as = (who: keyof typeof people) => apiOf(opened.store, NOW, people[who]);

  beforeAll(async () => {
    opened = await freshStore(kind);
    const operator = apiOf(opened.store, NOW);
    for (const code of ["OJ", "SL"])
      await operator.sites.open({ code, declarations: [{ kind: "open", from: "2031-01-01", value: {} }] });
    people.lead = { ...lead, id: (await operator.people.add({ name: "Jonas Fell", role: "lead", site: "OJ" })).id };
    people.officer = { ...officer, id: (await operator.people.add({ name: "Marit Osei", role: "officer" })).id };
    const sending = await as("lead").logs.send({ site: "OJ", bytes: bytes(LOG), name: "april.csv" });
    if ("slip" in sending) file = sending.slip.file;
    await as("officer").logs.count({ file, again: true, answers: { cells: { "log!C3": "3.5 kg" } } });
    const whole = await as("officer").logs.sendBySite({ bytes: bytes(BOTH), name: "both.csv" });
    if ("slip" in whole) programme = whole.slip.file;
  }, 120_000);
  afterAll(() => opened.close());

  test("tells the officer who sent, how many rows of which fate, and who answered what needed an answer", async () => {
    const { logs, next } = await as("officer").sent.ofSite({ site: "OJ" });
    expect(next).toBeNull();
    expect(logs.map((log) => log.file)).toEqual([programme, file]);
    expect(logs[1]).toMatchObject({
      site: "OJ",
      whole: true,
      name: "april.csv",
      bytes: LOG.length,
      state: "counted",
      sentBy: { self: false, name: "Jonas Fell", role: "lead" },
      rows: { rows: 5, counted: 3, held: 1, setAside: 1 },
      everHeld: 2,
      settled: [{ fate: "counted", how: "answered", rows: 1, by: { self: true, role: "officer" } }],
    });
    expect((await as("officer").sent.ofAll({ whose: "programme" })).logs.map((log) => log.file)).toEqual([programme]);
  });

  test("shows a site lead of a log of the programme the own rows, and nothing of it besides", async () => {
    const { logs } = await as("lead").sent.ofSite({ site: "OJ" });
    expect(logs[0]).toMatchObject({
      file: programme,
      whole: false,
      name: null,
      sha256: null,
      bytes: null,
      sentBy: { self: false, name: null, role: "officer" },
      rows: { rows: 1, counted: 1 },
    });
    const { csv } = await as("lead").sent.ownRows({ file: programme, site: "OJ" });
    expect(csv).toContain("2031-04-05");
    expect(csv.split("\r\n")).toHaveLength(3);
    for (const asked of [
      () => as("lead").logs.original({ file: programme }),
      () => as("lead").sent.deeds({ file: programme }),
      () => as("lead").sent.ofAll({}),
      () => as("lead").sent.ownRows({ file: programme, site: "SL" }),
    ])
      await expect(asked()).rejects.toThrow();
  });

  test("guards what a spreadsheet would run in the rows that are fetched", async () => {
    expect((await as("officer").sent.ownRows({ file: programme, site: "SL" })).csv).toContain("'=1+1");
  });

  test("gives an original back byte for byte", async () => {
    expect(Buffer.from((await as("lead").logs.original({ file })).bytes).toString("utf8")).toBe(LOG);
  });

  test("goes page by page from the newest to the oldest, each log once", async () => {
    const seen: string[] = [];
    let before: number | null = null;
    do {
      const page: { logs: readonly { file: string }[]; next: number | null } = await as("officer").sent.ofAll({
        most: 1,
        ...(before === null ? {} : { before }),
      });
      seen.push(...page.logs.map((log) => log.file));
      before = page.next;
    } while (before !== null);
    expect(seen).toEqual([programme, file]);
  });

  test("of a log that was taken back says why, by whom, and that it can be sent again", async () => {
    await as("lead").logs.withdraw({ file, reason: "it was March's" });
    const [, log] = (await as("officer").sent.ofSite({ site: "OJ" })).logs;
    expect(log).toMatchObject({ state: "withdrawn", takenBackWhy: "it was March's" });
    const deeds = await as("lead").sent.deeds({ file });
    expect(deeds.map(({ deed, by }) => [deed, by.self ? "self" : by.role])).toEqual([
      ["arrived", "self"],
      ["counted", "self"],
      ["counted-again", "officer"],
      ["withdrawn", "self"],
    ]);
    await expect(as("lead").sent.again({ file })).resolves.toMatchObject({});
    const here = await as("lead").sent.ofSite({ site: "OJ" });
    expect(here.logs[0]).toMatchObject({ state: "arrived", name: "april.csv", rows: { rows: 0 } });
  });
});
