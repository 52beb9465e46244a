import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { asPerson } from "#db/asPerson";
import { lockSite, recordsAfter } from "#db/queries/ledger";
import { daysBetween, weekday } from "#server/terms/days";
import { OPERATOR } from "#server/terms/person";
import { apiOf, bytes, freshStore, KINDS, type Opened } from "../setup/stores";
import { seeded } from "../statistics/seeded";

const MONTHS = ["2031-01", "2031-02", "2031-03"];
const SPAN = { from: "2031-01", to: "2031-03" };

/** A load a working day; from the middle of March on a fifth more comes out of the same. */
function log(month: string): string {
  const chance = seeded(Number(month.slice(5)));
  const rows = daysBetween(`${month}-01`, `${month}-28`)
    .filter((day) => weekday(day) !== 7)
    .map((day) => {
      const fresh = 9 + 2 * chance.uniform();
      const dried = fresh * (day < "2031-03-10" ? 0.32 : 0.39) * Math.exp(0.02 * chance.normal());
      return `${day},${day.replaceAll("-", "")},${fresh.toFixed(2)},${dried.toFixed(2)}`;
    });
  return ["Date,Batch no,Fresh (kg),Dried (kg)", ...rows].join("\n");
}

describe.each(KINDS)("waiting until all is watched, or not, on the %s database", (kind) => {
  let opened: Opened;
  const api = () => apiOf(opened.store, "2031-04-10T08:00:00Z");
  const commands = () =>
    asPerson({ store: opened.store, person: OPERATOR.id }, async (tx) =>
      (await recordsAfter(tx, 0, 50)).map(({ command }) => command),
    );
  const send = (month: string) =>
    api().logs.send({ site: "OJ", bytes: bytes(log(month)), name: `${month}.csv`, period: month });

  beforeAll(async () => {
    opened = await freshStore(kind);
    const from = "2031-01-01";
    const declarations = [{ kind: "method", from, value: { method: "sand-pan" } }] as const;
    await apiOf(opened.store, "2031-01-01T08:00:00Z").sites.open({ code: "OJ", declarations: [...declarations] });
  });
  afterAll(() => opened.close());

  test("before anything counts nothing is behind", async () => {
    expect(await api().signals.standing({ month: "2031-01", wait: "not" })).toEqual({ signals: [], behind: false });
  });

  test("who does not wait gets what is recorded, is told that logs came since, and sets nothing off", async () => {
    for (const month of MONTHS) await send(month);
    expect(await api().signals.standing({ month: "2031-03", wait: "not" })).toEqual({ signals: [], behind: true });
    expect(await api().signals.list({ ...SPAN, wait: "not" })).toMatchObject({ signals: [], behind: true });
    expect(await api().signals.inbox({ wait: "not" })).toMatchObject({ open: [], watchedTo: null, behind: true });
    expect(await commands()).not.toContain("watch");
  });

  test.runIf(kind === "postgres")(
    "while watching takes its time pages are answered all the same, and find it done once it is",
    { timeout: 240_000 },
    async () => {
      let letGo = () => {};
      const enough = new Promise<void>((done) => {
        letGo = done;
      });
      let holds = () => {};
      const held = new Promise<void>((done) => {
        holds = done;
      });
      // what was watched is recorded under this lock: as long as somebody has it, no watching comes to its end
      const holding = asPerson({ store: opened.store, person: OPERATOR.id }, async (tx) => {
        await lockSite(tx, 0);
        holds();
        await enough;
      });
      await held;
      try {
        const began = performance.now();
        expect(await api().signals.inbox({ wait: "briefly" })).toMatchObject({ open: [], behind: true });
        expect(performance.now() - began).toBeLessThan(15_000);
        expect(await api().signals.standing({ month: "2031-03", wait: "not" })).toEqual({ signals: [], behind: true });
      } finally {
        letGo();
        await holding;
      }
      const behind = async () => (await api().signals.standing({ month: "2031-03", wait: "not" })).behind;
      await expect.poll(behind, { timeout: 150_000, interval: 200 }).toBe(false);
    },
  );

  test("who waits gets what all logs tell, and after that nobody is behind until the next one comes", async () => {
    const raised = [{ site: "OJ", measure: "dry-yield", direction: "up" }];
    expect(await api().signals.standing({ month: "2031-03" })).toMatchObject({ signals: raised, behind: false });
    const unhurried = { month: "2031-03", wait: "not" } as const;
    expect(await api().signals.standing(unhurried)).toMatchObject({ signals: raised, behind: false });
    await api().people.add({ name: "Marisol", role: "officer" });
    expect((await api().signals.standing(unhurried)).behind, "people tell nothing of change").toBe(false);
    await send("2031-04");
    expect(await api().signals.standing(unhurried)).toMatchObject({ signals: raised, behind: true });
    expect((await api().signals.standing({ ...unhurried, asOf: "2031-04-11" })).behind, "as known on").toBe(false);
    await api().signals.watch();
    expect((await api().signals.standing({ month: "2031-03", wait: "briefly" })).behind).toBe(false);
  });
});
