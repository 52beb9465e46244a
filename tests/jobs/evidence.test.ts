import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { readCsv } from "#server/evidence/readCsv";
import type { Value } from "#server/evidence/table";
import { columnsExplained, TABLE_NAMES, TABLES, type TableName } from "#server/evidence/tables";
import { readGrid } from "#server/intake/grid/readGrid";
import type { Person } from "#server/terms/person";
import { apiOf, BOUNDS, bytes, freshStore, KINDS, type Opened } from "../setup/stores";

/** Numbers and pans that a spreadsheet would run, decimals that no double holds, a total, an unreadable weight, a late weight. */
const MARCH = `Date,Batch no,Pan,Fresh (kg),Dried (kg),Minutes,LPG (kg),Remarks
2031-03-03,=2+5,@1,10.10,3.30,95,0.82,canary
2031-03-03,-102,+2,11.5,3.80,99,0.91,
2031-03-04,103,@1,9.7,3.07,90,0.74,=cmd|' /C calc'!A0
2031-03-05,104,'-3,10.0,,90,0.70,
2031-03-06,105,@1,ten,3.2,90,,
2031-03-07,106,@1,0.1,0.03,,,
,,,,,,,
Total,,,41.4,13.4,,,
`;
const DRIED_LATER = "Date,Batch no,Dried (kg)\n2031-03-06,104,3.20\n";
const CORRECTED = MARCH.replace("2031-03-04,103,@1,9.7,3.07", "2031-04-01,103,@1,9.8,3.17");
const APRIL = "Date,Batch no,Fresh (kg),Dried (kg)\n2031-04-02,201,10,3\n";
const MISTAKEN = "Date,Batch no,Fresh (kg),Dried (kg)\n2031-03-09,301,10,9\n2031-03-10,302,11,\n";
const BOTH =
  "Date,Site,Batch no,Fresh (kg),Dried (kg)\n2031-03-11,OJ,401,10,3\n2031-03-11,SL,401,8,2.6\n2031-03-12,Nowhere,402,8,2.6\n";
const ELSEWHERE = "Date,Batch no,Fresh (kg),Dried (kg),Remarks\n2031-03-01,1,12,4.1,canary\n2031-03-02,2,many,4.0,\n";
const MARCH_ALONE = { from: "2031-03", to: "2031-03" };

const sentence = ({ code, text }: { code: string; text: string }) => (text === "" ? code : `${text}: ${code}`);

describe.each(KINDS)("evidence tables on the %s database", (kind) => {
  let opened: Opened;
  let lead: Person;
  const early: Record<string, string> = {};
  const api = (at = "2031-06-01T08:00:00Z", person?: Person) => apiOf(opened.store, at, person);

  async function csv(table: TableName, { site = "OJ", asOf = "", person = undefined as Person | undefined } = {}) {
    const scope = { ...MARCH_ALONE, table, sentence, ...(asOf === "" ? {} : { asOf }) };
    const door = api(undefined, person).evidence;
    const { pieces } = site === "all" ? await door.allCsv(scope) : await door.siteCsv({ site, ...scope });
    let text = "";
    for await (const piece of pieces) text += piece;
    return text;
  }

  async function rowsOf(table: TableName, asked: Parameters<typeof csv>[1] = {}): Promise<Record<string, Value>[]> {
    const { columns } = table === "columns" ? columnsExplained() : TABLES[table];
    return readCsv(await csv(table, asked), columns).map((row) =>
      Object.fromEntries(columns.map(({ name }, at) => [name, row[at] ?? null])),
    );
  }

  async function everyTable(asked: Parameters<typeof csv>[1]): Promise<Record<string, string>> {
    const texts: Record<string, string> = {};
    for (const table of TABLE_NAMES) texts[table] = await csv(table, asked);
    return texts;
  }

  beforeAll(async () => {
    opened = await freshStore(kind);
    for (const code of ["OJ", "SL"])
      await api("2031-01-02T08:00:00Z").sites.open({ code, declarations: declared(code) });
    lead = {
      id: (await api("2031-01-03T08:00:00Z").people.add({ name: "lead one", role: "lead", site: "OJ" })).id,
      role: "lead",
      site: 1,
    };
    const send = (at: string, site: string, text: string) =>
      api(at).logs.send({ site, bytes: bytes(text), name: "canary.csv", period: "2031-03" });
    await send("2031-04-02T08:00:00Z", "OJ", MARCH);
    await send("2031-04-03T08:00:00Z", "OJ", DRIED_LATER);
    await send("2031-04-03T09:00:00Z", "SL", ELSEWHERE);
    const mistaken = await send("2031-04-04T08:00:00Z", "OJ", MISTAKEN);
    if ("slip" in mistaken)
      await api("2031-04-04T09:00:00Z").logs.withdraw({ file: mistaken.slip.file, reason: "another site's" });
    await api("2031-04-05T08:00:00Z").logs.sendBySite({ bytes: bytes(BOTH), name: "both.csv" });
    await api("2031-04-10T08:00:00Z").logs.arrive({ site: "OJ", bytes: bytes("no table\n"), name: "note.txt" });
    await api("2031-04-11T08:00:00Z").logs.send({
      site: "SL",
      bytes: bytes("Date,Batch no,Fresh (kg),Dried (kg)\n2031-03-20,7,ten,3.1\n"),
      name: "asked.csv",
      answers: { cells: { "log!C2": "=10 kg", "log!D2": "3.2 kg" } },
    });
    await api("2031-04-12T08:00:00Z").figures.publish({ site: "OJ", month: "2031-03" });
    Object.assign(early, await everyTable({ site: "all", asOf: "2031-04-20T00:00:00Z" }));
    await send("2031-05-02T08:00:00Z", "OJ", CORRECTED);
    await send("2031-05-02T09:00:00Z", "OJ", APRIL);
    await api("2031-05-03T08:00:00Z").sites.declare({
      site: "OJ",
      declarations: [{ kind: "scale-step", key: "dried", from: "2031-03-01", value: { kg: 0.05 } }],
    });
  }, 120_000);
  afterAll(() => opened.close());

  test("added up again from the batches, the dry yield is the figure, to the last bits of a double", async () => {
    const batches = await rowsOf("batches");
    const figures = await rowsOf("figures");
    // what anybody would write: total dried over total fresh of those with both
    let fresh = 0;
    let dried = 0;
    for (const batch of batches) {
      if (batch.fresh_kg === null || batch.dried_kg === null) continue;
      fresh += Number(batch.fresh_kg);
      dried += Number(batch.dried_kg);
    }
    const figure = figures.find(({ measure }) => measure === "dry-yield");
    expect(batches.length).toBeGreaterThan(4);
    expect(Math.abs(dried / fresh - Number(figure?.value))).toBeLessThan(1e-12);
    expect(batches.filter(({ included }) => included === "1").length).toBe(Number(figure?.used));
  });

  test("a batch keeps the decimals that were written and says in which cells they stand", async () => {
    const batch = (await rowsOf("batches", { asOf: "2031-04-20T00:00:00Z" })).find(({ number }) => number === "104");
    expect(batch).toMatchObject({
      fresh_kg: "10",
      dried_kg: "3.2",
      fresh_row: "5",
      fresh_column: "D",
      fresh_text: "10.0",
    });
    expect(batch).toMatchObject({
      dried_row: "2",
      dried_column: "C",
      dried_text: "3.20",
      row: "5",
      rows: "2",
      included: "1",
    });
    expect(batch?.dried_log).not.toBe(batch?.fresh_log);
    const cells = (await rowsOf("cells", { asOf: "2031-04-20T00:00:00Z" })).filter(
      (cell) => cell.batch === batch?.batch,
    );
    expect(cells.filter(({ meaning }) => meaning === "dried")).toMatchObject([
      { written: "3.20", part: "dried", row: "2" },
    ]);
    const originals = await rowsOf("originals");
    expect(originals.map(({ sha256 }) => sha256)).toContain(batch?.log_sha256);
  });

  test("what a spreadsheet would run stands in the CSV with an apostrophe and comes back without", async () => {
    const asked = { asOf: "2031-04-20T00:00:00Z" };
    const text = await csv("batches", asked);
    expect(text).toContain("'=2+5");
    expect(text).toContain("'@1");
    expect((await rowsOf("batches", asked)).map(({ number }) => number)).toEqual(
      expect.arrayContaining(["=2+5", "-102", "103"]),
    );
    expect((await rowsOf("batches", asked)).map(({ pan }) => pan)).toEqual(expect.arrayContaining(["@1", "+2", "'-3"]));
    for (const table of TABLE_NAMES) expect(await csv(table, { site: "all" })).not.toMatch(/(^|,|\n)"?[=+@＝＋－＠\t]/);
  });

  test("rows counted, held and set aside are the rows of every log, and its sending slip says so", async () => {
    for (const site of ["OJ", "SL", "all"]) {
      const originals = await rowsOf("originals", { site });
      const lines = await rowsOf("rows-not-counted", { site });
      expect(originals.length).toBeGreaterThan(1);
      for (const original of originals) {
        const [rows, counted, held, setAside] = ["rows", "counted", "held", "set_aside"].map((name) =>
          Number(original[name]),
        );
        expect(counted! + held! + setAside!).toBe(rows);
        if (original.rows_on_slip !== null) expect(Number(original.rows_on_slip)).toBe(rows);
        const own = lines.filter(({ log }) => log === original.log);
        expect([
          own.filter(({ fate }) => fate === "held").length,
          own.filter(({ fate }) => fate === "set-aside").length,
        ]).toEqual([held, setAside]);
      }
      expect(new Set(lines.map(({ log }) => log))).toEqual(
        new Set(originals.filter(({ held, set_aside }) => held !== "0" || set_aside !== "0").map(({ log }) => log)),
      );
    }
    const held = (await rowsOf("rows-not-counted")).find(({ reasons }) => reasons === "mass-not-a-number");
    expect(held).toMatchObject({
      row: "6",
      column: "D",
      written: "ten",
      sentences: "ten: mass-not-a-number",
      fate: "held",
    });
    expect(held?.cells).toContain("D: ten");
  });

  test("what is announced of the tables is what they hold, and it adds up", async () => {
    for (const site of ["OJ", "SL", "all"]) {
      const account = await (site === "all"
        ? api().evidence.allAccount(MARCH_ALONE)
        : api().evidence.siteAccount({ site, ...MARCH_ALONE }));
      for (const { name, lines } of account.tables)
        if (lines !== null) expect([name, (await rowsOf(name, { site })).length]).toEqual([name, lines]);
      const { rows, batches } = account;
      expect(rows.counted + rows.held + rows.setAside).toBe(rows.rows);
      expect(rows.rows).toBeGreaterThan(0);
      if (rows.onSlips !== null) expect(rows.onSlips).toBe(rows.rows);
      expect(batches.here).toBe(batches.listed);
      const listed = await rowsOf("batches", { site });
      expect(batches.usable).toBe(listed.filter(({ included }) => included === "1").length);
      expect(batches.here - batches.usable).toBe(listed.filter(({ included }) => included === "0").length);
    }
    const { logs } = await api().evidence.siteAccount({ site: "OJ", ...MARCH_ALONE });
    expect(logs).toMatchObject({ takenBack: 1, notCounted: 1 });
  });

  test("a log taken back is listed with its hash, and none of its batches", async () => {
    expect((await rowsOf("originals")).filter(({ state }) => state === "withdrawn")).toMatchObject([
      { rows: "3", counted: "2" },
    ]);
    expect((await rowsOf("batches")).map(({ number }) => number)).not.toContain("301");
  });

  test("asked again as known then, every table is the same, byte for byte, whatever came since", async () => {
    expect(await everyTable({ site: "all", asOf: "2031-04-20T00:00:00Z" })).toEqual(early);
    const now = await everyTable({ site: "all" });
    for (const table of ["figures", "batches", "cells", "originals", "rows-not-counted", "facts"] as const)
      expect(now[table], table).not.toBe(early[table]);
    expect(now.publications).toBe(early.publications);
  });

  test("what a person answered stands beside what is written, guarded like any text", async () => {
    expect(await rowsOf("answers", { site: "SL" })).toMatchObject([
      { asked: "cell", place: "log!C2", put: "=10 kg" },
      { asked: "cell", place: "log!D2", put: "3.2 kg" },
    ]);
    expect(await csv("answers", { site: "SL" })).toContain("cell,log!C2,'=10 kg,");
    expect(await rowsOf("answers", { site: "all", person: lead })).toEqual([]);
  });

  test("facts say which of them rule; what was published is there with its hash", async () => {
    const steps = (await rowsOf("facts")).filter(({ fact }) => fact === "scale-step");
    expect(steps.map(({ value, in_force }) => [value, in_force])).toEqual([
      ['{"kg":0.01}', false],
      ['{"kg":0.05}', true],
    ]);
    const [published] = await api().figures.published({ site: "OJ", month: "2031-03" });
    expect(await rowsOf("publications")).toMatchObject([
      { month: "2031-03", figures_sha256: published?.digest, published_at: "2031-04-12T08:00:00.000Z" },
    ]);
    expect((await rowsOf("fuel-spans")).length).toBeGreaterThan(0);
    expect((await rowsOf("fuel-entries")).map(({ says, amount, unit }) => [says, amount, unit])).toContainEqual([
      "amount",
      "0.82",
      "kg",
    ]);
  });

  test("a site lead gets the own site's rows and nothing of another, also with the first wall removed", async () => {
    for (const table of TABLE_NAMES) {
      await expect(
        api(undefined, lead).evidence.siteCsv({ site: "SL", ...MARCH_ALONE, table, sentence }),
      ).rejects.toMatchObject({
        code: "NOT_FOUND",
        message: "There is no site SL.",
      });
      const own = await rowsOf(table, { site: "all", person: lead });
      expect(
        own.filter(({ site }) => site !== undefined && site !== null && site !== "OJ"),
        table,
      ).toEqual([]);
    }
    const rule = () => "yes" as const;
    const unruled = apiOf(opened.store, "2031-06-01T08:00:00Z", lead, rule).evidence;
    await expect(unruled.siteAccount({ site: "SL", ...MARCH_ALONE })).rejects.toMatchObject({ code: "NOT_FOUND" });
    expect(await rowsOf("batches", { site: "all", person: lead })).toHaveLength((await rowsOf("batches")).length);
    const programme = (await rowsOf("originals", { person: lead })).filter(({ site }) => site === null);
    expect(programme).toMatchObject([{ sha256: null, bytes: null, rows: "1", counted: "1" }]);
    await expect(
      apiOf(opened.store, "2031-06-01T08:00:00Z", null).evidence.allAccount(MARCH_ALONE),
    ).rejects.toMatchObject({
      code: "UNAUTHORIZED",
    });
  });

  test("names and remarks are in no table", async () => {
    for (const text of Object.values(await everyTable({ site: "all" }))) expect(text).not.toMatch(/canary|cmd\|/);
  });

  test("the workbook holds the same tables, typed, and texts in it are texts", async () => {
    const asked = { site: "OJ", ...MARCH_ALONE, sentence };
    const { bytes: book } = await api().evidence.siteWorkbook(asked);
    expect(Buffer.from((await api("2031-07-01T00:00:00Z").evidence.siteWorkbook(asked)).bytes).equals(book)).toBe(true);
    const grid = readGrid(book, "evidence.xlsx", BOUNDS);
    if ("refused" in grid) throw new Error(grid.refused);
    expect(grid.sheets.map(({ name }) => name)).toEqual(["about", ...TABLE_NAMES.filter((name) => name !== "cells")]);
    const cellsOf = (name: string) => {
      const [head, ...rows] = grid.sheets.find((sheet) => sheet.name === name)?.rows ?? [];
      return rows.map((row) => Object.fromEntries(row.cells.map((cell, at) => [head?.cells[at]?.text ?? "", cell])));
    };
    const batches = cellsOf("batches");
    expect(batches.map(({ number }) => [number?.kind, number?.text])).toEqual(
      (await rowsOf("batches")).map(({ number }) => ["text", number]),
    );
    for (const batch of batches) expect(["number", "blank"]).toContain(batch.fresh_kg?.kind);
    expect(batches.map(({ included }) => included?.value)).toEqual(
      (await rowsOf("batches")).map(({ included }) => Number(included)),
    );
    const live = cellsOf("figures").filter(
      ({ from_batches }) => from_batches !== undefined && from_batches.kind !== "blank",
    );
    expect(live.map(({ measure }) => measure?.text)).toEqual(["fresh", "dried", "dry-yield", "driven-off"]);
    for (const { from_batches, value, difference } of live) {
      expect(from_batches?.value).toBeCloseTo(value?.value ?? Number.NaN, 11);
      expect(Math.abs(difference?.value ?? 1)).toBeLessThan(1e-11);
    }
  });
});

function declared(code: string) {
  const from = "2031-01-01";
  return [
    { kind: "open", from, value: {} },
    { kind: "name", from, value: { name: code === "OJ" ? "Old Jetty" : "Salt Lane" } },
    { kind: "method", from, value: { method: "sand-pan" } },
    { kind: "numbering", from, value: { unique: "site" } },
    { kind: "schedule", from, value: { weekdays: [1, 2, 3, 4, 5, 6, 7], perDay: 2, of: "loads" } },
    { kind: "due", from, value: { dayOfMonth: 10 } },
    { kind: "scale-step", key: "dried", from, value: { kg: 0.01 } },
  ] as const satisfies unknown[];
}
