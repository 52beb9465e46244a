import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { asPerson } from "#db/asPerson";
import { batchesOn } from "#db/queries/batches";
import { fuelEntriesOf } from "#db/queries/fuel";
import { allSites } from "#db/queries/sites";
import { callerOf } from "#server/api/router";
import { canonical } from "#server/evidence/canonical";
import { readForSite } from "#server/jobs/readForSite";
import { send } from "#server/jobs/send";
import { progressOf } from "#server/jobs/underWay";
import { verify } from "#server/jobs/verify";
import type { Said } from "#server/terms/answers";
import { OPERATOR } from "#server/terms/person";
import { BOUNDS, bytes, freshStore, KINDS, type Opened } from "../setup/stores";

const clock = () => new Date("2032-01-01T00:00:00Z");
const DAYS = 190;
const dayAt = (at: number) => new Date(Date.UTC(2031, 0, 1 + at)).toISOString().slice(0, 10);

/** Ten loads a day and a line of gas for the whole day; some loads that cannot be read, some whose weight comes later. */
function log(leaveOut: readonly number[] = []): Uint8Array {
  const lines = ["Date,Batch no,Pan,Fresh (kg),Dried (kg),Minutes,Firewood (kg),Gas (kg)"];
  const later: string[] = [];
  for (let at = 0; at < DAYS; at++) {
    if (leaveOut.includes(at)) continue;
    const day = dayAt(at);
    for (let load = 1; load <= 10; load++) {
      const fresh = load === 4 && at % 20 === 0 ? "a pot" : (3 + ((at * 7 + load * 3) % 40) / 20).toFixed(2);
      const dried = (1.1 + ((at * 5 + load) % 30) / 100).toFixed(2);
      const waits = load === 7 && at % 50 === 10;
      if (waits) later.push(`${day},${load},1,,${dried},,0.3,`);
      lines.push(`${day},${load},1,${fresh},${waits ? "" : dried},${70 + (load % 9)},${load > 5 ? "0.5" : ""},`);
    }
    lines.push(`${day},,,,,,,${(1 + (at % 7) / 10).toFixed(1)}`);
  }
  return bytes(`${[...lines, ...later].join("\n")}\n`);
}

describe.each(KINDS)("a large log on %s", (kind) => {
  let opened: Opened;
  beforeAll(async () => {
    opened = await freshStore(kind);
    for (const code of ["IN", "AT", "TWO", "CUT", "WHOLE", "GONE", "PA", "PB", "WA", "WB"])
      await api().sites.open({
        code,
        declarations: [
          { kind: "open", from: "2030-01-01", value: {} },
          { kind: "method", from: "2030-01-01", value: { method: "sand-pan" } },
        ],
      });
  }, 120_000);
  afterAll(() => opened.close());

  const api = () => callerOf({ store: opened.store, person: OPERATOR, clock, bounds: BOUNDS });
  const corridor = () => ({ store: opened.store, person: OPERATOR.id, clock });
  const intact = async () => expect((await verify(corridor(), BOUNDS)).differences).toEqual([]);

  async function figures(site: string) {
    const months = await api().figures.site({ site, from: "2031-01", to: "2031-09" });
    return months.map(({ figures: of }) =>
      Object.entries(of).map(([name, one]) => ({ name, ...one, asKnownOn: null })),
    );
  }

  async function rowsOf(file: string) {
    const rows = await api().logs.rows({ file });
    return rows.map(({ sheet, row, fate, reasons }) => [sheet, row, fate, reasons.map(({ code }) => code)]);
  }

  /** The loads of a site and its fuel as they stand, without what tells one store from another. */
  async function standing(code: string) {
    return asPerson(corridor(), async (tx) => {
      const site = (await allSites(tx)).find((one) => one.code === code)?.id ?? 0;
      const days = Array.from({ length: DAYS }, (_, at) => dayAt(at));
      const loads = await batchesOn(tx, site, days, [], Number.MAX_SAFE_INTEGER);
      const numbers = new Map(loads.map(({ batch }) => [batch.id, `${batch.day} ${batch.number}`]));
      const fuel = await fuelEntriesOf(tx, site, Number.MAX_SAFE_INTEGER);
      return {
        loads: loads.map(({ batch }) => canonical({ ...batch, id: "", site: 0 })).sort(),
        fuel: fuel
          .map(({ day, fuel, said, batch }) =>
            canonical({ day, fuel, said, load: batch === null ? null : (numbers.get(batch) ?? "gone") }),
          )
          .sort(),
      };
    });
  }

  async function sent(site: string, of = log()) {
    const sending = await api().logs.send({ site, bytes: of, name: "log.csv" });
    if (!("slip" in sending)) throw new Error("it was not read");
    return sending.slip.file;
  }

  /** Counts it again with one record, as a small log is; null: a log of the programme. */
  async function atOnce(code: string | null, file: string, answers: Said, of = log()) {
    const site = (await asPerson(corridor(), allSites)).find((one) => one.code === code)?.id ?? null;
    const order = { bytes: of, site, file, period: null, answers, remembered: null };
    const { reading, hints } = await readForSite(corridor(), BOUNDS, order);
    if ("refused" in reading) throw new Error("it was not read");
    const from = { bytes: of, name: "log.csv", site, cameBy: "site", claimedAt: null } as const;
    return send(corridor(), { sent: from, reading, hints, file, again: true, by: "officer" });
  }

  test("counted again part by part says what it says counted again at once, whatever is answered", {
    timeout: 600_000,
  }, async () => {
    const [parted, whole] = [await sent("IN"), await sent("AT")];
    const held = (await rowsOf(parted)).filter(([, , fate]) => fate === "held").map(([, row]) => Number(row));
    expect(held).toHaveLength(Math.ceil(DAYS / 20));
    const said: readonly Said[] = [
      { cells: { [`log!D${held[1]}`]: "3.3 kg" } },
      { units: { "log!G": "lb" }, cells: { [`log!D${held[2]}`]: "3.4 kg" } },
      { meanings: { "log!H": "ignore" }, setAside: ["log!3", "log!500", "log!501", "log!1200"] },
      { meanings: { "log!G": "lpg", "log!H": "firewood" } },
      { units: { "log!E": "lb" } },
      { asWritten: held.map((row) => `log!${row}`) },
      {},
    ];
    const first = await figures("IN");
    for (const answers of said) {
      const sending = await api().logs.count({ file: parted, again: true, answers });
      if (!("slip" in sending)) throw new Error("it was not read");
      const slip = await atOnce("AT", whole, answers);
      const told = ({ rows, batches, held, months, totals, driedToCome, open }: typeof slip) => ({
        ...{ rows, held, months, totals, driedToCome, open },
        batches: { ...batches, withdrawn: batches.withdrawn ?? 0 },
      });
      expect(told(sending.slip), JSON.stringify(answers)).toEqual(told(slip));
      expect(sending.slip.freshKg).toBeCloseTo(slip.freshKg ?? 0, 6);
      expect(await standing("IN"), JSON.stringify(answers)).toEqual(await standing("AT"));
      expect(await figures("IN"), JSON.stringify(answers)).toEqual(await figures("AT"));
      expect(await rowsOf(parted)).toEqual(await rowsOf(whole));
    }
    expect(await figures("IN")).toEqual(first);
    const [last] = (await api().sent.deeds({ file: parted })).slice(-1);
    expect(last?.deed).toBe("counted-again");
    for (const file of [parted, whole]) await api().logs.withdraw({ file, reason: "the wrong one" });
    expect(await figures("IN")).toEqual(await figures("AT"));
    await intact();
  });

  test("rows that turn out to be of another site leave the one and come to the other", {
    timeout: 600_000,
  }, async () => {
    const programme = (a: string, b: string) => {
      const [head, ...lines] = new TextDecoder().decode(log()).trim().split("\n");
      return bytes([`Site,${head}`, ...lines.map((line, at) => `${at % 11 < 6 ? a : b},${line}`)].join("\n"));
    };
    const [own, other] = [programme("PA", "PB"), programme("WA", "WB")];
    const sentBySite = async (of: Uint8Array) => {
      const sending = await api().logs.sendBySite({ bytes: of, name: "log.csv" });
      if (!("slip" in sending)) throw new Error("it was not read");
      return sending.slip.file;
    };
    const [parted, whole] = [await sentBySite(own), await sentBySite(other)];
    // one load of a day, all loads of another, and a line of gas
    const moved = [3, ...Array.from({ length: 10 }, (_, at) => 24 + at), 56];
    const all = (code: string) => ({ cells: Object.fromEntries(moved.map((row) => [`log!A${row}`, code])) });
    for (const [a, b] of [
      ["PB", "WB"],
      ["PA", "WA"],
    ] as const) {
      await api().logs.count({ file: parted, again: true, answers: all(a) });
      await atOnce(null, whole, all(b), other);
      expect(await figures("PA")).toEqual(await figures("WA"));
      expect(await figures("PB")).toEqual(await figures("WB"));
      expect([await standing("PA"), await standing("PB")]).toEqual([await standing("WA"), await standing("WB")]);
      expect(await rowsOf(parted)).toEqual(await rowsOf(whole));
    }
    await intact();
  });

  /** Begins to count and stops it once a part is in. */
  async function stoppedAfterAPart(file: string, answers: Said) {
    const counting = api().logs.count({ file, again: true, answers });
    const stopped = expect(counting).rejects.toThrow("It was stopped.");
    const rows = () => progressOf(file, OPERATOR.id)?.rows ?? 0;
    while (progressOf(file, OPERATOR.id)?.inParts !== true || rows() === 0)
      await new Promise((on) => setTimeout(on, 1));
    await api().logs.stop({ file });
    await stopped;
  }

  test("counted again and stopped, its parts are each wholly old or wholly new, and it goes on as it was begun", {
    timeout: 600_000,
  }, async () => {
    const [cut, whole] = [await sent("CUT"), await sent("WHOLE")];
    const pounds: Said = { units: { "log!G": "lb" }, meanings: { "log!H": "firewood" } };
    await stoppedAfterAPart(cut, pounds);
    const { state, soFar } = await api().logs.file({ file: cut });
    expect([state, soFar?.again]).toEqual(["settled", true]);
    expect(soFar?.rows).toBeGreaterThan(0);
    expect(soFar?.rows).toBeLessThan(DAYS * 10);
    await intact();
    await api().logs.count({ file: whole, again: true, answers: pounds });
    expect(await api().logs.count({ file: cut })).toMatchObject({ slip: { batches: { new: 0, vanished: 0 } } });
    expect(await figures("CUT")).toEqual(await figures("WHOLE"));

    const kilograms: Said = { units: { "log!G": "kg" }, setAside: ["log!9"] };
    await stoppedAfterAPart(cut, {});
    // somebody who answers otherwise meanwhile is heard once what was begun is done
    await api().logs.count({ file: cut, answers: kilograms });
    expect(await api().logs.file({ file: cut })).toMatchObject({ state: "counted", answers: kilograms });
    await api().logs.count({ file: whole, again: true, answers: kilograms });
    expect(await figures("CUT")).toEqual(await figures("WHOLE"));

    await stoppedAfterAPart(cut, pounds);
    await api().logs.withdraw({ file: cut, reason: "the wrong one" });
    await api().logs.withdraw({ file: whole, reason: "the wrong one" });
    expect(await figures("CUT")).toEqual(await figures("WHOLE"));
    await intact();
  });

  test("answered by two at once says in the end what one of them said, and nothing twice", {
    timeout: 600_000,
  }, async () => {
    const [two, whole] = [await sent("TWO"), await sent("WHOLE")];
    const said: readonly Said[] = [{ units: { "log!G": "lb" } }, { meanings: { "log!H": "firewood" } }];
    await Promise.all(said.map((answers) => api().logs.count({ file: two, again: true, answers })));
    const { answers, state } = await api().logs.file({ file: two });
    expect(state).toBe("counted");
    expect(said).toContainEqual(answers);
    await api().logs.count({ file: whole, again: true, answers: answers ?? {} });
    expect(await figures("TWO")).toEqual(await figures("WHOLE"));
    await intact();
  });

  test("withdraws what it lacks part by part, also of days between two parts; taken back, all of it is there again", {
    timeout: 600_000,
  }, async () => {
    await sent("GONE");
    const before = await figures("GONE");
    // a part is some five hundred rows of whole days: eleven rows a day, so one ends with the 45th
    const fewer = bytes(
      new TextDecoder()
        .decode(log([45, 120]))
        .split("\n")
        .filter((line) => !line.startsWith(`${dayAt(30)},2,`))
        .join("\n"),
    );
    const { file } = await api().logs.arrive({ site: "GONE", bytes: fewer, name: "fewer.csv" });
    const vanished = (await api().sent.difference({ file }))?.vanished ?? [];
    expect([...new Set(vanished.map(({ day }) => day))]).toEqual([30, 45, 120].map(dayAt));
    const withdraw = vanished.map(({ id }) => id);
    const why = { reason: "other", words: "they never were" } as const;
    const sending = await api().logs.count({ file, withdraw, why });
    expect(sending).toMatchObject({ slip: { batches: { new: 0, vanished: 0, withdrawn: withdraw.length } } });
    const [row] = (await api().sent.deeds({ file })).slice(-1);
    expect(row).toMatchObject({ deed: "counted", why });
    const without = await figures("GONE");
    expect(without).not.toEqual(before);
    await api().logs.withdraw({ file, reason: "they were after all" });
    expect(await figures("GONE")).toEqual(before);
    await intact();
  });
});
