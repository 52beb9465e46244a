import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { asPerson } from "#db/asPerson";
import { fuelSpansOf } from "#db/queries/fuel";
import { siteByCode } from "#db/queries/sites";
import { daySumsOf, monthSumsOf } from "#db/queries/sums";
import { canonical } from "#server/evidence/canonical";
import { OPERATOR } from "#server/terms/person";
import { apiOf, bytes, freshStore, KINDS, type Opened } from "../setup/stores";

const HEADING = "Date,Batch no,Pan,Fresh (kg),Dried (kg),Minutes,Firewood (kg)";

/** Two months of invented loads; every fourth dried weight comes on a line of its own the next morning. */
function lines(): string[] {
  let state = 20310301;
  const random = () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
  const all: string[] = [];
  for (let number = 1; number <= 120; number++) {
    const day = new Date(Date.UTC(2031, 2, 1) + Math.floor((number - 1) / 2) * 86_400_000).toISOString().slice(0, 10);
    const next = new Date(Date.parse(day) + 86_400_000).toISOString().slice(0, 10);
    const fresh = (8 + 4 * random()).toFixed(2);
    const dried = (Number(fresh) * (0.3 + 0.05 * random())).toFixed(2);
    const rest = `${Math.round(70 + 50 * random())},${(1 + random()).toFixed(1)}`;
    const later = number % 4 === 0;
    all.push(`${day},${number},${1 + (number % 2)},${fresh},${later ? "" : dried},${rest}`);
    if (later) all.push(`${next},${number},,,${dried},,`);
  }
  return all;
}

describe.each(KINDS)("logs on the %s database", (kind) => {
  let opened: Opened;
  beforeAll(async () => {
    opened = await freshStore(kind);
  }, 120_000);
  afterAll(() => opened.close());

  const log = (some: readonly string[]) => bytes(`${[HEADING, ...some].join("\r\n")}\r\n`);

  async function siteWith(code: string, logs: readonly Uint8Array[]): Promise<string> {
    const api = apiOf(opened.store, "2031-05-02T08:00:00Z");
    const from = "2031-01-01";
    await api.sites.open({
      code,
      declarations: [
        { kind: "open", from, value: {} },
        { kind: "method", from, value: { method: "sand-pan" } },
        { kind: "numbering", from, value: { unique: "site" } },
        { kind: "scale-step", key: "dried", from, value: { kg: 0.01 } },
      ],
    });
    for (const [i, sent] of logs.entries()) await api.logs.send({ site: code, bytes: sent, name: `${i}.csv` });
    return sumsOf(code);
  }

  test("give the same sums, bit for bit, in any order and split into any files", async () => {
    const all = lines();
    const half = Math.floor(all.length / 2);
    const [march, april] = [log(all.slice(0, half)), log(all.slice(half))];
    const inOrder = await siteWith("A", [march, april]);
    expect(inOrder.length).toBeGreaterThan(20_000);
    expect(await siteWith("B", [april, march])).toBe(inOrder);
    const split = [0, 1, 2, 3, 4, 5, 6].map((part) => log(all.filter((_, i) => (i * 5) % 7 === part)));
    expect(await siteWith("C", split)).toBe(inOrder);
    expect(await siteWith("D", [log([...all].reverse())])).toBe(inOrder);
    expect(await siteWith("E", [march, april, log(all)])).toBe(inOrder);
  }, 120_000);

  test("sent again under another name and with other bytes add nothing", async () => {
    const all = lines();
    const once = await siteWith("F", [log(all)]);
    expect(await siteWith("G", [log(all), bytes(`${[HEADING, ...all].join("\n")}\n`)])).toBe(once);
  }, 120_000);

  test("get the same slip when the same bytes come again, until the log is withdrawn", async () => {
    const api = apiOf(opened.store, "2031-05-02T08:00:00Z");
    const order = { site: "A", bytes: log(lines().slice(0, 3)), name: "three.csv" };
    const first = await api.logs.send(order);
    expect(await apiOf(opened.store, "2031-06-02T08:00:00Z").logs.send({ ...order, name: "renamed.csv" })).toEqual(
      first,
    );
    if (!("slip" in first)) throw new Error("it was not read");
    expect(await api.logs.withdraw({ file: first.slip.file, reason: "sent by mistake" })).toEqual({ withdrawn: true });
    const again = await api.logs.send(order);
    expect(again).toMatchObject({ slip: { rows: first.slip.rows } });
    expect(again).not.toEqual(first);
  });

  test("taken back leave everything as if they had not come, and the record of both", async () => {
    const all = lines();
    const without = await siteWith("H", [log(all.slice(0, 60))]);
    const api = apiOf(opened.store, "2031-05-02T08:00:00Z");
    const late = await api.logs.send({ site: "H", bytes: log(all.slice(40)), name: "late.csv" });
    if (!("slip" in late)) throw new Error("it was not read");
    await api.logs.withdraw({ file: late.slip.file, reason: "another site's log" });
    expect(await siteWith("I", [log(all.slice(0, 60))])).toBe(without);
    expect(await sumsOf("H")).toBe(without);
    expect((await api.ledger.verify()).differences).toEqual([]);
  }, 120_000);

  async function sumsOf(code: string): Promise<string> {
    return asPerson({ store: opened.store, person: OPERATOR.id }, async (tx) => {
      const { id } = (await siteByCode(tx, code)) ?? { id: -1 };
      const size = Number.MAX_SAFE_INTEGER;
      const sums = [
        await daySumsOf(tx, [id], "2031-01-01", "2031-12-31", size),
        ...[await monthSumsOf(tx, "2031-03", id, size), await monthSumsOf(tx, "2031-04", id, size)],
        await fuelSpansOf(tx, [id], "2031-01-01", "2031-12-31", size),
      ];
      return canonical(sums.map((rows) => rows.map((row) => ({ ...row, site: 0 }))));
    });
  }
});
