import { describe, expect, test } from "vitest";
import { callerOf } from "#server/api/router";
import { Source } from "#server/jobs/source";
import { verify } from "#server/jobs/verify";
import { OPERATOR } from "#server/terms/person";
import { backFile, siteCode } from "../bench/backFile";
import { BOUNDS, bytes, freshStore, KINDS, type Opened } from "../setup/stores";

const SITES = 3;
const ROWS = 1_000;
/** Files of more rows are read in parts, of half as many. */
const SMALL = { ...BOUNDS, rows: 240 };
const clock = () => new Date("2032-01-01T00:00:00Z");

async function withSites(opened: Opened, bounds = SMALL) {
  const api = callerOf({ store: opened.store, person: OPERATOR, clock, bounds });
  for (let site = 0; site < SITES; site++) {
    const declarations = [
      { kind: "open", from: "1999-01-01", value: {} },
      { kind: "method", from: "1999-01-01", value: { method: "sand-pan" } },
    ] as const;
    await api.sites.open({ code: siteCode(site), declarations: [...declarations] });
  }
  return api;
}

const figures = (api: Awaited<ReturnType<typeof withSites>>) =>
  Promise.all(
    Array.from({ length: SITES }, (_, site) =>
      api.figures
        .site({ site: siteCode(site), from: "2000-01", to: "2000-02" })
        .then((all) =>
          all.map(({ figures: of }) => Object.entries(of).map(([name, one]) => ({ ...one, name, asKnownOn: null }))),
        ),
    ),
  );

describe.each(KINDS)("a large file on %s", (kind) => {
  test("read in parts says what it says read whole, and is read again the same", { timeout: 240_000 }, async () => {
    const [whole, parted] = [await freshStore(kind), await freshStore(kind)];
    const file = backFile(ROWS, SITES);
    const all = await withSites(whole, BOUNDS);
    const inParts = await withSites(parted);
    const expected = await all.logs.sendBySite({ bytes: file, name: "back.csv" });
    const told: number[] = [];
    const order = {
      source: Source.of(file),
      name: "back.csv",
      onPart: ({ rows }: { rows: number }) => told.push(rows),
    };
    const sending = await inParts.logs.sendLargeBySite(order);
    if (!("slip" in sending) || !("slip" in expected)) throw new Error(JSON.stringify([sending, expected]));
    const { ledgerIndex: _a, ...slip } = sending.slip;
    const { ledgerIndex: _b, ...other } = expected.slip;
    // sums of floats may differ in the last bit, as they are added in parts
    expect({ ...slip, freshKg: slip.freshKg?.toFixed(6), driedKg: slip.driedKg?.toFixed(6) }).toEqual({
      ...other,
      freshKg: other.freshKg?.toFixed(6),
      driedKg: other.driedKg?.toFixed(6),
    });
    expect(slip.rows).toMatchObject({ rows: ROWS + 1, counted: ROWS });
    expect(slip.batches.new).toBe(ROWS);
    expect(told.length).toBeGreaterThan(5);
    expect(await figures(inParts)).toEqual(await figures(all));
    const corridor = { store: parted.store, person: OPERATOR.id, clock };
    expect((await verify(corridor, SMALL)).differences).toEqual([]);
    expect(await inParts.logs.sendLargeBySite(order)).toEqual(sending);
    await Promise.all([whole.close(), parted.close()]);
  });

  test("notices repeated rows and compares totals across its cuts, also when it was cut short", {
    timeout: 240_000,
  }, async () => {
    const [whole, parted] = [await freshStore(kind), await freshStore(kind)];
    const lines = backFile(600, 1).toString().trimEnd().split("\n");
    const [, first = "", second = ""] = lines;
    const total = (from: number, to: number, at: number) =>
      lines
        .slice(from, to)
        .reduce((sum, line) => sum + Number(line.split(",")[at]), 0)
        .toFixed(3);
    const both = (from: number, to: number) => `,,${total(from, to, 3)},${total(from, to, 4)},,,`;
    const file = bytes(
      [
        ...lines.slice(0, 401),
        `Subtotal${both(1, 401)}`,
        ...lines.slice(401),
        first, // written twice, far from the first time and in another part
        second,
        `Total${both(1, 601).replace(/\d+\./, "9$&")}`, // wrong by nine thousand or so
        both(1, 601).replace(/^,,/, ",,,"), // a sum without a word for it, one column off: no total
        "",
      ].join("\n"),
    );
    const api = await withSites(whole, BOUNDS);
    const inParts = await withSites(parted);
    const expected = await api.logs.send({ site: siteCode(0), bytes: file, name: "back.csv" });
    let parts = 0;
    const cutShort = () => {
      if (++parts === 2) throw new Error("the power went");
    };
    const order = { site: siteCode(0), source: Source.of(file), name: "back.csv" };
    await expect(inParts.logs.sendLarge({ ...order, onPart: cutShort })).rejects.toThrow();
    const sending = await inParts.logs.sendLarge(order);
    if (!("slip" in sending) || !("slip" in expected)) throw new Error(JSON.stringify([sending, expected]));
    const { rows, totals, held } = sending.slip;
    expect({ rows, held }).toEqual({ rows: expected.slip.rows, held: expected.slip.held });
    expect(totals.map(({ at, meaning, written, read }) => [at.row, meaning, written, read.toFixed(6)])).toEqual(
      expected.slip.totals.map(({ at, meaning, written, read }) => [at.row, meaning, written, read.toFixed(6)]),
    );
    expect(rows.counted).toBeGreaterThanOrEqual(600);
    expect(rows.setAside).toBeGreaterThanOrEqual(5);
    expect(totals.length).toBeGreaterThanOrEqual(4);
    expect(totals.some(({ written, read }) => Math.abs(written - read) > 1000)).toBe(true);
    const corridor = { store: parted.store, person: OPERATOR.id, clock };
    expect((await verify(corridor, SMALL)).differences).toEqual([]);
    await Promise.all([whole.close(), parted.close()]);
  });

  test("of the programme is told to the leads of its sites", { timeout: 240_000 }, async () => {
    const opened = await freshStore(kind);
    const api = await withSites(opened);
    const sending = await api.logs.sendLargeBySite({ source: Source.of(backFile(400, 2)), name: "back.csv" });
    const of = (site: number) =>
      api.sent.ofSite({ site: siteCode(site) }).then(({ logs }) => logs.map(({ file }) => file));
    expect([await of(0), await of(1), await of(2)]).toEqual([
      ["slip" in sending && sending.slip.file],
      ["slip" in sending && sending.slip.file],
      [],
    ]);
    await opened.close();
  });

  test("goes on where it was cut short when it comes again", { timeout: 240_000 }, async () => {
    const opened = await freshStore(kind);
    const api = await withSites(opened);
    const file = backFile(ROWS, SITES);
    let parts = 0;
    const stop = () => {
      if (++parts === 3) throw new Error("the power went");
    };
    await expect(
      api.logs.sendLargeBySite({ source: Source.of(file), name: "back.csv", onPart: stop }),
    ).rejects.toThrow();
    const told: number[] = [];
    const again = await api.logs.sendLargeBySite({
      source: Source.of(file),
      name: "back.csv",
      onPart: ({ rows }) => told.push(rows),
    });
    expect(told[0]).toBeGreaterThan(SMALL.rows);
    expect(again).toMatchObject({ slip: { rows: { counted: ROWS }, batches: { new: ROWS } } });
    await opened.close();
  });

  test("is refused as too large where it is no table of text", async () => {
    const opened = await freshStore(kind);
    const api = await withSites(opened);
    const source = Source.of(new Uint8Array(100_000));
    expect(await api.logs.sendLargeBySite({ source, name: "x" })).toMatchObject({ unreadable: {} });
    await opened.close();
  });
});
