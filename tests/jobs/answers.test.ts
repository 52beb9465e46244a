import { sql } from "drizzle-orm";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { asPerson } from "#db/asPerson";
import { rowsOf } from "#db/rowsOf";
import { verify } from "#server/jobs/verify";
import { dayNumber, daysBetween, weekday } from "#server/terms/days";
import type { Person } from "#server/terms/person";
import type { SignalTold } from "#server/terms/signalTold";
import { apiOf, BOUNDS, bytes, freshStore, KINDS, type Opened } from "../setup/stores";
import { seeded } from "../statistics/seeded";

const STEP = { site: "SL", from: "2031-03-10", times: 1.2 };
const MAY = "2031-05-10T10:00:00Z";

function log(site: string, month: string, seed: number, times = STEP.times): string {
  const chance = seeded(seed);
  const lines = ["Date,Batch no,Fresh (kg),Dried (kg)"];
  let number = Number(month.slice(5)) * 1000;
  for (const day of daysBetween(`${month}-01`, `${month}-28`)) {
    if (weekday(day) === 7) continue;
    const fresh = 9 + 2 * chance.uniform();
    const changed = site === STEP.site && day >= STEP.from ? times : 1;
    const dried = fresh * 0.32 * changed * Math.exp(0.02 * chance.normal());
    lines.push([day, number++, fresh.toFixed(2), dried.toFixed(2)].join(","));
  }
  return `${lines.join("\n")}\n`;
}

describe.each(KINDS)("answers to signals on the %s database", (kind) => {
  let opened: Opened;
  let officer: Person;
  let lead: Person;
  let other: Person;
  let raised: SignalTold;
  let waited: number;
  const at = (when: string, person?: Person) => apiOf(opened.store, when, person);
  const send = (site: string, month: string, text: string, when: string) =>
    at(when).logs.send({ site, bytes: bytes(text), name: `${month}.csv`, period: month });

  beforeAll(async () => {
    opened = await freshStore(kind);
    const api = at("2031-01-01T08:00:00Z");
    const from = "2031-01-01";
    for (const code of ["OJ", "SL"])
      await api.sites.open({
        code,
        declarations: [
          { kind: "open", from, value: {} },
          { kind: "method", from, value: { method: "sand-pan" } },
          { kind: "numbering", from, value: { unique: "site" } },
        ],
      });
    const { id } = await api.people.add({ name: "Marisol", role: "officer" });
    officer = { id, role: "officer", site: null };
    lead = { id: (await api.people.add({ name: "Asha", role: "lead", site: "SL" })).id, role: "lead", site: 2 };
    other = { id: (await api.people.add({ name: "Noor", role: "lead", site: "OJ" })).id, role: "lead", site: 1 };
    for (const [i, site] of ["OJ", "SL"].entries())
      for (const month of ["2031-01", "2031-02", "2031-03", "2031-04"])
        await send(
          site,
          month,
          log(site, month, 10 * i + Number(month.slice(5))),
          `${month.slice(0, 6)}${Number(month.slice(6)) + 1}-03T08:00:00Z`,
        );
    const [story] = (await at(MAY).signals.inbox({})).open;
    raised = story!.signals[0]!;
  }, 240_000);
  afterAll(() => opened.close());

  test("the inbox says what waits, with what it comes to; an earlier time knew nothing of it", async () => {
    const { open, answered, watchedTo } = await at(MAY, officer).signals.inbox({});
    expect(watchedTo).toBe("2031-04");
    expect(open[0]).toMatchObject({ site: "SL", partOf: null });
    expect(open[0]!.driedKg).toBeGreaterThan(10);
    expect(answered.every(({ signals }) => signals.every(({ state }) => state !== "stands"))).toBe(true);
    expect((await at(MAY, officer).signals.inbox({ asOf: "2031-04-30" })).open).toEqual([]);
  });

  /** As the inbox has it: what sites did together, and sites that are wholly part of it, wait once and not each. */
  const waitIn = async (person: Person) =>
    (await at(MAY, person).signals.inbox({})).open.filter(({ site, partOf }) => site !== null && partOf === null)
      .length;

  test("how many wait is counted for each by what they may see", async () => {
    const expected = await Promise.all([officer, lead, other].map(waitIn));
    expect(expected[0]).toBeGreaterThan(0);
    expect(await Promise.all([officer, lead, other].map((one) => at(MAY, one).signals.waiting()))).toEqual(expected);
    // nothing came since: counted again it is the same
    expect(await at(MAY, officer).signals.waiting()).toBe(expected[0]);
    waited = expected[0]!;
  });

  test("watching records nothing where nothing came", async () => {
    const size = async () => (await at(MAY).ledger.head()).size;
    const before = await size();
    await at(MAY).signals.inbox({});
    await at("2031-05-20T10:00:00Z").signals.list({ from: "2031-01", to: "2031-04" });
    expect(await size()).toBe(before);
  });

  test("one signal is shown with its days, what they are held to, its logs and its questions", async () => {
    const { signal, shown, revisions, mayAnswer, name } = await at(MAY, officer).signals.one({ id: raised.id });
    expect(signal).toEqual(raised);
    expect(name).toBe("SL");
    expect(mayAnswer).toBe(true);
    expect(revisions[0]).toMatchObject({ state: "stands", month: raised.raisedOn.slice(0, 7) });
    const day = shown.points.find((point) => point.day === raised.raisedOn)!;
    expect(day.raised).toBe("up");
    expect(day.chart!).toBeGreaterThan(day.limit!);
    expect(day.files).toHaveLength(1);
    expect(shown.points.filter(({ state }) => state === "learning")).toHaveLength(12);
    expect(shown.held).toMatchObject({ from: "defaults", streams: 2 });
    expect(shown.delays[0]!.change).toBe(0.05);
    expect(signal.questions).toHaveLength(3);
  });

  test("only those who decide may answer, and nobody learns of a site that is not theirs", async () => {
    const said = { id: raised.id, kind: "no-cause-found", reason: "nothing was found" } as const;
    await expect(at(MAY, lead).signals.answer(said)).rejects.toThrow("Your role does not allow this.");
    await expect(at(MAY, other).signals.one({ id: raised.id })).rejects.toThrow("There is no");
    await expect(at(MAY, other).signals.stream({ ...raised, from: "2031-01", to: "2031-04" })).rejects.toThrow(
      "There is no site SL",
    );
    await expect(at(MAY, lead).signals.accepted({})).rejects.toThrow("Your role does not allow this.");
    expect((await at(MAY, other).signals.inbox({})).open.filter(({ site }) => site !== "OJ")).toEqual([]);
    expect((await at(MAY, lead).signals.one({ id: raised.id })).mayAnswer).toBe(false);
    const seen = await asPerson({ store: opened.store, person: other.id }, async (tx) =>
      rowsOf<{ site: number }>(await tx.execute(sql`select site from signals union select site from watched_streams`)),
    );
    expect(seen.filter(({ site }) => site !== 1)).toEqual([]);
    const written = asPerson({ store: opened.store, person: lead.id }, (tx) =>
      tx.execute(
        sql`insert into signal_answers select site, method, measure, raised_on, direction, 'no-cause-found', null, null, '[]', ${lead.id}::uuid, 'x', 1 from signals limit 1`,
      ),
    );
    await expect(written).rejects.toThrow();
  });

  test("an answer says what it needs, and is refused in a sentence where that is missing", async () => {
    const api = at(MAY, officer);
    const id = raised.id;
    await expect(api.signals.answer({ id, kind: "data-error", reason: "tare" })).rejects.toThrow("on which days");
    await expect(
      api.signals.answer({ id, kind: "temporary-cause", from: "2031-03-10", reason: "rain" }),
    ).rejects.toThrow("to which day");
    await expect(api.signals.answer({ id, kind: "real-change", reason: "  " })).rejects.toThrow("must say why");
    await expect(
      api.signals.answer({ id: id.replace("up", "down"), kind: "real-change", reason: "x" }),
    ).rejects.toThrow("no such signal");
  });

  test("a real change begins a new reference; the answer stands with its person and a sealed reason", async () => {
    const answered = await at("2031-05-11T10:00:00Z", officer).signals.answer({
      id: raised.id,
      kind: "real-change",
      reason: "Asha bought a finer sieve",
    });
    const meanwhile = await at("2031-05-12T10:00:00Z", officer).signals.one({ id: raised.id, wait: "not" });
    expect(meanwhile.signal).toMatchObject({ state: "stands", answer: { kind: "real-change" } });
    const { signal, answers, shown } = await at("2031-05-12T10:00:00Z", officer).signals.one({ id: raised.id });
    expect(signal.state).toBe("ended");
    expect(answers).toMatchObject([
      {
        kind: "real-change",
        from: raised.since,
        reason: "Asha bought a finer sieve",
        by: "Marisol",
        role: "officer",
        ledgerIndex: answered.ledgerIndex,
      },
    ]);
    expect(shown.references.at(-1)).toMatchObject({ from: raised.since, begunBy: "real-change", state: "running" });
    expect(shown.references.at(-1)!.level!).toBeCloseTo(0.32 * STEP.times, 2);
    const { open, answered: done } = await at("2031-05-12T10:00:00Z", officer).signals.inbox({});
    expect(open.flatMap(({ signals }) => signals.map(({ id }) => id))).not.toContain(raised.id);
    expect(done.flatMap(({ signals }) => signals.map(({ id }) => id))).toContain(raised.id);
    const rows = await asPerson({ store: opened.store, person: officer.id }, async (tx) =>
      rowsOf<{ said: string }>(await tx.execute(sql`select to_jsonb(a)::text as said from signal_answers a`)),
    );
    expect(JSON.stringify(rows)).not.toContain("sieve");
    const before = await at(MAY, officer).signals.one({ id: raised.id, asOf: "2031-05-10T23:00:00Z" });
    expect(before.signal).toMatchObject({ state: "stands", answer: null });
  });

  test("the officer sees what was promised and what came", async () => {
    const told = await at("2031-05-12T12:00:00Z", officer).signals.accepted({});
    expect(told).toMatchObject({ said: 1, reading: "on-average", quarterFrom: "2031-04-01" });
    const march = told.months.find(({ month }) => month === raised.raisedOn.slice(0, 7));
    expect(march).toMatchObject({ streams: 2, confirmed: 1, falseAlarms: 0 });
    expect(told.streams.map(({ site }) => site)).toEqual(["OJ", "SL"]);
    expect(told.streams[0]!.found[0]!.change).toBe(0.1);
    expect(told.defaults).toEqual([{ method: "sand-pan", measure: "dry-yield", streams: 2 }]);
  });

  test("days from now count from the day on which somebody asks, however long no log has come", async () => {
    const asked = async (day: string) =>
      (await at(`${day}T12:00:00Z`, officer).signals.accepted({})).streams[0]!.found[0]!;
    const [may, july] = [await asked("2031-05-12"), await asked("2031-07-12")];
    expect(dayNumber(may.toldOn!) - may.calendarDays!).toBe(dayNumber("2031-05-12"));
    expect(dayNumber(july.toldOn!) - july.calendarDays!).toBe(dayNumber("2031-07-12"));
  });

  test("a later answer stands in front of an earlier one", async () => {
    const api = at("2031-05-13T10:00:00Z", officer);
    await api.signals.answer({ id: raised.id, kind: "no-cause-found", reason: "it was no sieve" });
    const { answers, signal, shown } = await api.signals.one({ id: raised.id });
    expect(answers.map(({ kind: said }) => said)).toEqual(["real-change", "no-cause-found"]);
    expect(signal.answer?.kind).toBe("no-cause-found");
    expect(shown.references).toHaveLength(1);
    const month = (await api.signals.accepted({})).months.find((one) => one.month === raised.raisedOn.slice(0, 7));
    expect(month).toMatchObject({ confirmed: 0, falseAlarms: 1 });
  });

  test("once all is answered nothing waits", async () => {
    const api = at("2031-05-14T10:00:00Z", officer);
    for (const { signals } of (await api.signals.inbox({})).open) {
      const [first, ...others] = signals.filter(({ answer }) => answer === null);
      const also = others.map(({ id }) => id);
      await api.signals.answer({ id: first!.id, kind: "no-cause-found", reason: "nobody knows", also });
    }
    expect(waited).toBeGreaterThan(0);
    expect(await api.signals.waiting()).toBe(0);
  });

  test("everything told is found again, and nothing told can be changed", async () => {
    const corridor = { store: opened.store, person: officer.id, clock: () => new Date(MAY) };
    const { differences, checked } = await verify(corridor, BOUNDS);
    expect(differences).toEqual([]);
    expect(checked.signals).toBeGreaterThan(0);
    const owner = await opened.store.owner();
    try {
      for (const table of ["watched_months", "watched_streams", "signals", "signal_answers"])
        for (const change of [`update ${table} set ledger_index = 1`, `delete from ${table}`, `truncate ${table}`])
          await expect(owner.db.execute(sql.raw(change)), change).rejects.toThrow();
      await owner.db.execute(sql`alter table signals disable trigger user`);
      await owner.db.execute(sql`update signals set change = change * 2`);
    } finally {
      await owner.close();
    }
    const again = await verify(corridor, BOUNDS);
    expect(new Set(again.differences.map(({ what }) => what))).toEqual(new Set(["ledger", "signal"]));
  });
});
