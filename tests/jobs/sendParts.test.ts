import { describe, expect, test } from "vitest";
import { callerOf } from "#server/api/router";
import { Source } from "#server/jobs/source";
import { verify } from "#server/jobs/verify";
import { OPERATOR } from "#server/terms/person";
import { backFile, siteCode } from "../bench/backFile";
import { BOUNDS, freshStore, KINDS, type Opened } from "../setup/stores";

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
