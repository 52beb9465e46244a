import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { asPerson } from "#db/asPerson";
import { rowBatches } from "#db/schema/rows";
import { OPERATOR } from "#server/terms/person";
import { apiOf, bytes, freshStore, KINDS, type Opened } from "../setup/stores";

const NOW = "2031-05-02T08:00:00Z";
const LOG = `Date,Batch no,Fresh (kg),Dried (kg),Minutes,Firewood (kg)
2031-04-01,1,10,3.3,90,1.2
2031-04-02,2,3.500,1.1,95,1.3
2031-04-03,3,12,3.9,95,1.4
`;

describe.each(KINDS)("a log settled after it was sent, on the %s database", (kind) => {
  let opened: Opened;
  let file = "";
  beforeAll(async () => {
    opened = await freshStore(kind);
    const from = "2031-01-01";
    await apiOf(opened.store, NOW).sites.open({
      code: "OJ",
      declarations: [
        { kind: "open", from, value: {} },
        { kind: "method", from, value: { method: "sand-pan" } },
      ],
    });
    const sending = await apiOf(opened.store, NOW).logs.send({ site: "OJ", bytes: bytes(LOG), name: "april.csv" });
    if ("slip" in sending) file = sending.slip.file;
    expect(sending).toMatchObject({
      slip: {
        rows: { counted: 2, held: 1, setAside: 1 },
        held: [{ row: 3, code: "mass-decimal-unclear", text: "3.500" }],
      },
    });
  }, 120_000);
  afterAll(() => opened.close());

  const month = async (asOf?: string) => {
    const [april] = await apiOf(opened.store, NOW).figures.site({
      site: "OJ",
      from: "2031-04",
      to: "2031-04",
      ...(asOf === undefined ? {} : { asOf }),
    });
    const { fresh, heat } = april?.figures ?? {};
    return { fresh: fresh?.known && fresh.value, heat: heat?.known && heat.value, used: fresh?.restsOn.used };
  };

  test("a held row that is answered counts, with the first reading kept; one that is no batch after all is taken back", async () => {
    const before = await month();
    expect(before).toMatchObject({ fresh: 22, used: 2 });
    const later = apiOf(opened.store, "2031-05-03T08:00:00Z");
    const answered = await later.logs.count({ file, again: true, answers: { cells: { "log!C3": "3.5 kg" } } });
    expect(answered).toMatchObject({ slip: { rows: { counted: 3, held: 0 }, batches: { new: 1, same: 2 } } });
    expect(await month()).toMatchObject({ fresh: 25.5, used: 3 });

    const latest = apiOf(opened.store, "2031-05-04T08:00:00Z");
    const away = await latest.logs.count({
      file,
      again: true,
      answers: { cells: { "log!C3": "3.5 kg" }, setAside: ["log!4"] },
    });
    expect(away).toMatchObject({ slip: { rows: { counted: 2, held: 0, setAside: 2 }, batches: { new: 0, same: 2 } } });
    const after = await month();
    expect(after).toMatchObject({ fresh: 13.5, used: 2 });
    expect(after.heat).toBeLessThan(Number(before.heat));
    expect(await month("2031-05-02")).toEqual(before);
    expect((await latest.ledger.verify()).differences).toEqual([]);
  });

  test("fuel that was taken for another fuel counts once, as what it is, once somebody has put it right", async () => {
    const api = apiOf(opened.store, "2031-05-05T07:00:00Z");
    await api.sites.open({
      code: "SL",
      declarations: [
        { kind: "open", from: "2031-01-01", value: {} },
        { kind: "method", from: "2031-01-01", value: { method: "sand-pan" } },
      ],
    });
    const lines = ["2031-04-01,1,10,3.3,90,1.2,2", "2031-04-02,2,11,3.6,90,1.3,", "2031-04-03,,,,,,4"];
    const log = bytes(["Date,Batch no,Fresh (kg),Dried (kg),Minutes,Firewood (kg),Gas (kg)", ...lines].join("\n"));
    const sending = await api.logs.send({ site: "SL", bytes: log, name: "april.csv" });
    const id = "slip" in sending ? sending.slip.file : "";
    const burned = async () => {
      const [april] = await api.figures.site({ site: "SL", from: "2031-04", to: "2031-04" });
      const { heat } = april?.figures ?? {};
      return heat?.known && heat.value;
    };
    const right = await burned();
    expect(right).toBeGreaterThan(0);
    const exchanged = { meanings: { "log!F": "lpg", "log!G": "firewood" } } as const;
    await api.logs.count({ file: id, again: true, answers: exchanged });
    expect(await burned()).not.toBe(right);
    await api.logs.count({ file: id, again: true, answers: {} });
    expect(await burned()).toBe(right);
    expect((await api.ledger.verify()).differences).toEqual([]);
  });

  test("fuel that a log says no more counts on as another log said it before", async () => {
    const api = apiOf(opened.store, "2031-05-05T07:30:00Z");
    await api.sites.open({
      code: "WH",
      declarations: [
        { kind: "open", from: "2031-01-01", value: {} },
        { kind: "method", from: "2031-01-01", value: { method: "sand-pan" } },
      ],
    });
    const send = async (name: string, ...lines: string[]) => {
      const sending = await api.logs.send({ site: "WH", bytes: bytes(lines.join("\n")), name });
      return "slip" in sending ? sending.slip.file : "";
    };
    const burned = async () => {
      const [april] = await api.figures.site({ site: "WH", from: "2031-04", to: "2031-04" });
      return april?.figures.heat?.known && april.figures.heat.value;
    };
    await send("loads.csv", "Date,Batch no,Fresh (kg),Dried (kg)", "2031-04-03,1,10,3.3");
    const gas = await send("gas.csv", "Date,Gas (kg)", "2031-04-03,4");
    const once = await burned();
    expect(once).toBeGreaterThan(0);
    const month = await send(
      "month.csv",
      "Date,Batch no,Fresh (kg),Dried (kg),Gas (kg)",
      "2031-04-03,1,10,3.3,",
      "2031-04-03,,,,4",
    );
    expect(await burned()).toBe(once);
    await api.logs.count({ file: month, again: true, answers: { meanings: { "log!E": "ignore" } } });
    expect(await burned()).toBe(once);
    await api.logs.withdraw({ file: gas, reason: "it was the month before" });
    expect(await burned()).toBe(false);
    expect((await api.ledger.verify()).differences).toEqual([]);
  });

  test("without being asked to settle, a log that was counted is left as it is", async () => {
    const api = apiOf(opened.store, "2031-05-05T08:00:00Z");
    const slip = await api.logs.slip({ file });
    expect(await api.logs.count({ file })).toEqual({ slip });
  });
});

describe.each(KINDS)("loads that were weighed together, on the %s database", (kind) => {
  let opened: Opened;
  beforeAll(async () => {
    opened = await freshStore(kind);
  }, 120_000);
  afterAll(() => opened.close());

  test("are one batch, read from every row of theirs", async () => {
    const api = apiOf(opened.store, NOW);
    const from = "2031-01-01";
    await api.sites.open({ code: "OJ", declarations: [{ kind: "open", from, value: {} }] });
    const log = bytes(
      "Date,Batch no,Fresh (kg),Dried (kg)\n2031-04-01,3,10,\n2031-04-01,4,11,\n2031-04-01,5,12,10.5\n",
    );
    const { file } = await api.logs.arrive({ site: "OJ", bytes: log, name: "set.csv" });
    const sent = await api.logs.count({ file, answers: { together: [["log!4", "log!2", "log!3"]] } });
    expect(sent).toMatchObject({
      slip: { rows: { counted: 3, held: 0 }, batches: { new: 1 }, freshKg: 33, driedKg: 10.5 },
    });
    const links = await asPerson({ store: opened.store, person: OPERATOR.id }, (tx) => tx.select().from(rowBatches));
    expect(links.map(({ row }) => row).sort()).toEqual([2, 3, 4]);
    expect(new Set(links.map(({ batch }) => batch)).size).toBe(1);
    expect((await api.ledger.verify()).differences).toEqual([]);
  });
});
