import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { asPerson } from "#db/asPerson";
import { batchesOn } from "#db/queries/batches";
import { OPERATOR } from "#server/terms/person";
import { apiOf, bytes, freshStore, KINDS, type Opened } from "../setup/stores";

const NOW = "2031-06-01T08:00:00Z";
const LOADS = [3, 4, 5].map((number, at) => `2031-04-01,${number},1,${10 + at},,8${at}`);

describe.each(KINDS)("a dried weight on a line of its own, on %s", (kind) => {
  let opened: Opened;
  let api: ReturnType<typeof apiOf>;
  let site = "";
  let id = 0;
  beforeAll(async () => {
    opened = await freshStore(kind);
    api = apiOf(opened.store, NOW);
  });
  afterAll(() => opened.close());

  async function withLoads(...rows: readonly string[]): Promise<string> {
    site = `S${++id}`;
    const open = { kind: "open", from: "2031-01-01", value: {} } as const;
    await api.sites.open({ code: site, declarations: [open] });
    return send(
      `Date,Batch no,Pan,Fresh (kg),Dried (kg),Minutes\n${[...rows, "2031-04-02,6,1,10,3.3,80"].join("\n")}\n`,
    );
  }
  async function send(text: string): Promise<string> {
    const sending = await api.logs.send({ site, bytes: bytes(text), name: "log.csv" });
    if (!("slip" in sending)) throw new Error("it was not read");
    return sending.slip.file;
  }
  const batches = () =>
    asPerson({ store: opened.store, person: OPERATOR.id }, async (tx) => {
      const known = await batchesOn(tx, id, ["2031-04-01", "2031-04-02"], [], 1e9);
      return known
        .map(({ batch }) => [batch.number, batch.grain, batch.loads, batch.fresh?.exact, batch.dried?.exact ?? null])
        .sort();
    });
  const SIX = ["6", "load", 1, "10", "3.3"];
  const ONE_BY_ONE = [["3", "load", 1, "10", null], ["4", "load", 1, "11", null], ["5", "load", 1, "12", null], SIX];
  const verified = async () => expect((await api.ledger.verify()).differences).toEqual([]);
  const offered = async (file: string) => {
    const [row] = (await api.sent.difference({ file }))?.rows.filter(({ verdict }) => verdict === "no-load") ?? [];
    return (
      row?.mayJoin.map(({ loads, dryYield, put }) => ({ numbers: loads.map(({ number }) => number), dryYield, put })) ??
      []
    );
  };

  test("of many that wait for their load, as many are asked about as one answers at a time", async () => {
    await withLoads(...Array.from({ length: 25 }, (_, at) => `2031-04-01,,1,${10 + at},,80`));
    const dried = await send(`Date,Dried (kg)\n${Array.from({ length: 25 }, () => "2031-04-01,3.4\n").join("")}`);
    const difference = await api.sent.difference({ file: dried });
    expect(difference?.counts.noLoad).toBe(25);
    expect(difference?.rows.filter(({ mayJoin }) => mayJoin.length > 0)).toHaveLength(20);
  });

  test("is asked about also behind many whose loads are not here", async () => {
    await withLoads(...LOADS);
    const alone = (day: string) => `${day},3.4\n`;
    const dried = await send(`Date,Dried (kg)\n${alone("2031-03-01").repeat(25)}${alone("2031-04-02")}`);
    const rows = (await api.sent.difference({ file: dried }))?.rows ?? [];
    expect(rows.flatMap(({ row, mayJoin }) => (mayJoin.length > 0 ? [row] : []))).toEqual([27]);
  });

  test("of several loads is offered those that its number names, and joined they are one batch of that day", async () => {
    const loads = await withLoads(...LOADS);
    const dried = await send("Date,Batch no,Dried (kg)\n2031-04-02,3+4+5,11\n");
    const [together, ...others] = await offered(dried);
    expect(together).toMatchObject({ numbers: ["3", "4", "5"], dryYield: 11 / 33 });
    expect(others).toEqual([]); // eleven kilograms are too much for one of them
    const answers = { are: { "log!2": together?.put ?? "" } };
    expect(await api.logs.understood({ file: dried, answers })).toMatchObject({ counts: { counted: 1 } });
    const counted = await api.logs.count({ file: dried, again: true, answers });
    expect(counted).toMatchObject({ slip: { rows: { counted: 1, held: 0 }, batches: { joined: 1 } } });
    const joined = [["3+4+5", "set", 3, "33", "11"], SIX];
    expect(await batches()).toEqual(joined);
    const [of] = await api.figures.site({ site, from: "2031-04", to: "2031-04" });
    expect(of?.figures["dry-yield"]).toMatchObject({ value: (11 + 3.3) / 43 });

    await api.logs.count({ file: dried, again: true, answers }); // once more, with nothing new
    await api.logs.count({ file: loads, again: true });
    expect(await batches()).toEqual(joined);
    await verified();

    await expect(api.logs.withdraw({ file: loads, reason: "a mistake" })).rejects.toThrow(
      /came with EV-\w{8}, and they count there together\. Take that log back first\./,
    );
    await api.logs.withdraw({ file: dried, reason: "a mistake" });
    expect(await batches()).toEqual(ONE_BY_ONE);
    expect(await api.logs.withdraw({ file: loads, reason: "a mistake" })).toEqual({ withdrawn: true });
    expect(await batches()).toEqual([]);
    await verified();
  });

  test("goes back to waiting, and its loads stand alone, where the answer is taken back", async () => {
    await withLoads(...LOADS);
    const dried = await send("Date,Batch no,Dried (kg)\n2031-04-01,3+4+5,11\n");
    const [together] = await offered(dried);
    await api.logs.count({ file: dried, again: true, answers: { are: { "log!2": together?.put ?? "" } } });
    expect(await batches()).toEqual([["3+4+5", "set", 3, "33", "11"], SIX]);
    expect(await api.logs.count({ file: dried, again: true, answers: {} })).toMatchObject({
      slip: { rows: { held: 1 } },
    });
    expect(await batches()).toEqual(ONE_BY_ONE);
    expect(await offered(dried)).toMatchObject([{ numbers: ["3", "4", "5"] }]);
    await verified();
  });

  test("without a number is offered all loads of its day and each that it can be the weight of; one is simply joined", async () => {
    await withLoads(...LOADS);
    const dried = await send("Date,Dried (kg)\n2031-04-01,3.6\n");
    const choices = await offered(dried);
    expect(choices.map(({ numbers }) => numbers)).toEqual([["3", "4", "5"], ["3"], ["4"], ["5"]]);
    const five = choices.at(-1)?.put ?? "";
    expect(await api.logs.count({ file: dried, again: true, answers: { are: { "log!2": five } } })).toMatchObject({
      slip: { rows: { counted: 1 }, batches: { joined: 1 } },
    });
    expect(await batches()).toEqual([...ONE_BY_ONE.slice(0, 2), ["5", "load", 1, "12", "3.6"], SIX]);
    await api.logs.count({ file: dried, again: true, answers: { are: { "log!2": five } } });
    expect(await batches()).toEqual([...ONE_BY_ONE.slice(0, 2), ["5", "load", 1, "12", "3.6"], SIX]);
    await verified();
  });

  test("stays held where the loads of an answer are not here, or have a dried weight by now", async () => {
    await withLoads(...LOADS);
    const dried = await send("Date,Batch no,Dried (kg)\n2031-04-01,3+4+5,11\n");
    const [together] = await offered(dried);
    await send("Date,Batch no,Dried (kg)\n2031-04-01,4,3.7\n");
    const again = (put: string) => api.logs.count({ file: dried, again: true, answers: { are: { "log!2": put } } });
    expect(await again(together?.put ?? "")).toMatchObject({ slip: { rows: { held: 1 } } });
    expect(await again("with 00000000-0000-4000-8000-000000000000 and-more")).toMatchObject({
      slip: { rows: { held: 1 } },
    });
    expect((await batches()).map(([number]) => number)).toEqual(["3", "4", "5", "6"]);
    await verified();
  });
});
