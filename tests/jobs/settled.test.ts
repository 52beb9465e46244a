import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { asPerson } from "#db/asPerson";
import { batchesFrom } from "#db/queries/batches";
import { faultKey } from "#server/terms/fault";
import { OPERATOR, type Person } from "#server/terms/person";
import { apiOf, bytes, freshStore, KINDS, type Opened } from "../setup/stores";

const NOW = "2031-08-02T08:00:00Z";

/** Loads of a month whose dates may be read both ways, with grams among kilograms in three of them. */
function logOf(month: string, heading: string, row: (day: number) => string): string {
  const days = [3, 4, 5, 6, 7, 8];
  return `${heading}\n${days.map((day) => `${day}/${Number(month.slice(5))}/${month.slice(0, 4)};${row(day)}`).join("\n")}\n`;
}
const PLAIN = "Date;Lot;Wet;Dry;Minutes";
const plainRow = (day: number) => `${day};5,${day};1,7${day};8${day}`;

describe.each(KINDS)("settling a log, on the %s database", (kind) => {
  let opened: Opened;
  let lead: Person;
  let officer: Person;
  const at = (time: string, person?: Person) => apiOf(opened.store, time, person ?? lead);
  const keep = async (text: string, name: string) =>
    (await at(NOW).logs.arrive({ site: "SL", bytes: bytes(text), name })).file;

  /** why each batch of a log was revised, in the order of the alphabet */
  const reasonsOf = (file: string) =>
    asPerson({ store: opened.store, person: OPERATOR.id }, async (tx) =>
      (await batchesFrom(tx, file)).map(({ reason }) => reason).sort(),
    );

  beforeAll(async () => {
    opened = await freshStore(kind);
    const api = apiOf(opened.store, "2031-01-02T08:00:00Z");
    await api.sites.open({ code: "SL", declarations: [{ kind: "open", from: "2031-01-01", value: {} }] });
    const someone = async (name: string, role: "lead" | "officer"): Promise<Person> => {
      const { id } = await api.people.add({ name, role, ...(role === "lead" ? { site: "SL" } : {}) });
      return { id, role, site: role === "lead" ? 1 : null };
    };
    lead = await someone("Mira Sand", "lead");
    officer = await someone("Hana Brook", "officer");
  }, 120_000);
  afterAll(() => opened.close());

  test("what a log left open is asked once, each choice with what would follow", async () => {
    const file = await keep(logOf("2031-05", PLAIN, plainRow), "may.csv");
    const seen = await at(NOW).logs.understood({ file });
    if ("refused" in seen) throw new Error(seen.refused);
    expect(seen.questions.map(({ code, column }) => `${code} ${column}`)).toEqual([
      "column-unit C",
      "column-unit D",
      "day-order null",
    ]);
    const days = seen.look?.outcomes.filter(({ code }) => code === "day-order");
    expect(days?.map(({ choice, counted, from, to }) => [choice, counted, from, to])).toEqual([
      ["dmy", 6, "2031-05-03", "2031-05-08"],
      ["mdy", 5, "2031-03-05", "2031-07-05"],
    ]);
    const answers = { dayOrder: "dmy", units: { "log!C": "kg", "log!D": "kg" } } as const;
    const then = await at(NOW).logs.understood({ file, answers });
    expect(then).toMatchObject({ counts: { counted: 6, held: 0 }, remembered: null, earlier: 0 });
    await at(NOW).logs.count({ file, answers });
  });

  test("the next log of the site takes it over, also with a title and its columns moved, and says what changed", async () => {
    const text = `Salt Lane, June\n${logOf("2031-06", "Date;Lot;Pan;Dry;Wet;Time on fire (min)", (day) => `${day};1;1,7${day};5,${day};8${day}`)}`;
    const file = await keep(text, "june.csv");
    const seen = await at(NOW).logs.understood({ file });
    expect(seen).toMatchObject({
      counts: { counted: 6, held: 0 },
      questions: [],
      remembered: { month: "2031-05", answers: { dayOrder: "dmy", units: { "log!D": "kg", "log!E": "kg" } } },
      like: {
        month: "2031-05",
        change: {
          missing: [],
          added: ["Pan"],
          renamed: [{ from: "Minutes", to: "Time on fire (min)" }],
          units: [],
          moved: true,
        },
      },
    });
    await at(NOW).logs.count({ file });
    const told = await at(NOW).logs.file({ file });
    expect(told.answers).toEqual({});
    expect(told.settled.map(({ asked, place, put, from }) => [asked, place, put, from !== null])).toEqual([
      ["day-order", null, "dmy", true],
      ["column-unit", "log!D", "kg", true],
      ["column-unit", "log!E", "kg", true],
    ]);
    const alone = await at(NOW).logs.understood({ file, answers: { alone: true } });
    expect(alone).toMatchObject({ counts: { counted: 0 }, remembered: null });
    expect((await apiOf(opened.store, NOW).ledger.verify()).differences).toEqual([]);
  });

  test("headings that somebody pointed at are found again next month, also lower and in several rows", async () => {
    const api = apiOf(opened.store, "2031-01-02T08:00:00Z");
    await api.sites.open({ code: "LH", declarations: [{ kind: "open", from: "2031-01-01", value: {} }] });
    const arrive = async (text: string) =>
      (await apiOf(opened.store, NOW).logs.arrive({ site: "LH", bytes: bytes(text), name: "log.csv" })).file;
    const rows = (month: string) =>
      [3, 4, 5].map((day) => `2031-${month}-0${day},${5 + day / 10},${1.6 + day / 100},8${day}`);
    // words of no language that is known here; the weights stand under one group
    const log = (month: string, above: readonly string[]) =>
      [...above, "Xqa,Xqb,,Xqd", ",wuz (kg),vuz (kg),min", ...rows(month)].join("\n");
    const officerAt = apiOf(opened.store, NOW, officer);
    const first = await arrive(log("05", ["Lantern Hill"]));
    expect(await officerAt.logs.understood({ file: first })).toMatchObject({ questions: [{ code: "no-table" }] });
    const answers = {
      headings: { log: 3 },
      headingsFrom: { log: 2 },
      units: { "log!B": "kg", "log!C": "kg" },
      meanings: { "log!A": "day", "log!B": "fresh", "log!C": "dried", "log!D": "minutes" },
    } as const;
    const read = await officerAt.logs.understood({ file: first, answers });
    expect(read).toMatchObject({
      counts: { counted: 3 },
      tables: [
        { headingRow: 3, columns: ["Xqa", "Xqb wuz (kg)", "Xqb vuz (kg)", "min"].map((heading) => ({ heading })) },
      ],
    });
    await officerAt.logs.count({ file: first, answers });

    const second = await arrive(log("06", ["Lantern Hill", "June", "by Nalu"]));
    const again = await officerAt.logs.understood({ file: second });
    expect(again).toMatchObject({
      counts: { counted: 3, held: 0 },
      questions: [],
      remembered: {
        file: first,
        month: "2031-05",
        answers: { headings: { log: 5 }, headingsFrom: { log: 4 }, meanings: { "log!C": "dried" } },
      },
      like: { file: first, change: { missing: [], added: [], renamed: [] } },
    });
    await officerAt.logs.count({ file: second });
    expect((await officerAt.logs.slip({ file: second })).driedKg).toBeCloseTo(1.63 + 1.64 + 1.65, 9);
    const other = await arrive("Xqa,Zzz\nhello,2\nthere,3\n");
    expect(await officerAt.logs.understood({ file: other })).toMatchObject({ remembered: null });
    expect((await apiOf(opened.store, NOW).ledger.verify()).differences).toEqual([]);
  });

  test("what is remembered never overrules what the log says itself", async () => {
    const text = `Date;Lot;Wet (g);Dry (g);Minutes\n7/25/2031;1;5200;1750;80\n7/26/2031;2;5300;1760;81\n`;
    const file = await keep(text, "july.csv");
    expect(await at(NOW).logs.understood({ file })).toMatchObject({
      counts: { counted: 2 },
      remembered: null,
      tables: [{ dayOrder: "mdy" }],
      like: {
        change: {
          units: [
            { heading: "Wet (g)", from: "kg", to: "g" },
            { heading: "Dry (g)", from: "kg", to: "g" },
          ],
          dayOrder: { from: "dmy", to: "mdy" },
        },
      },
    });
  });

  test("a fault that somebody confirms is put right as a correction of theirs; what was written stays", async () => {
    const rows = Array.from({ length: 8 }, (_, at) =>
      at < 3 ? `1${at}/04/2031;${at + 1};5.${at};1${7 + at}0${at};80` : `1${at}/04/2031;${at + 1};5.${at};1.7${at};80`,
    );
    const file = await keep(`Date;Lot;Wet (kg);Dry (kg);Minutes\n${rows.join("\n")}\n`, "april.csv");
    const seen = await at(NOW).logs.understood({ file });
    if ("refused" in seen) throw new Error(seen.refused);
    const [fault] = seen.look?.faults ?? [];
    if (fault === undefined) throw new Error("no fault was found");
    expect(fault).toMatchObject({ code: "grams-for-kilograms", rows: [2, 3, 4] });
    expect(seen.counts).toMatchObject({ counted: 5, held: 3 });

    await at(NOW).logs.count({ file, answers: { faults: { [faultKey(fault)]: "no" } } });
    expect((await at(NOW).logs.slip({ file })).rows).toMatchObject({ counted: 5, held: 3 });
    const later = "2031-08-03T08:00:00Z";
    await at(later, officer).logs.count({ file, again: true, answers: { faults: { [faultKey(fault)]: "yes" } } });
    expect((await at(NOW).logs.slip({ file })).rows).toMatchObject({ counted: 8, held: 0 });
    const deeds = await at(later).sent.deeds({ file });
    expect(deeds.at(-1)).toMatchObject({ why: { reason: "unit" }, by: { role: "officer" } });
    const [, first] = await at(later).logs.rows({ file });
    expect(first?.cells.find(({ meaning }) => meaning === "dried")?.text).toBe("1700");
    const told = await at(later).logs.file({ file });
    expect(told.settled.map(({ asked, place, put, by }) => [asked, place, put, by])).toEqual([
      ["fault", faultKey(fault), "put-right", "officer"],
      ["cell", "log!D2", "1.7 kg", "officer"],
      ["cell", "log!D3", "1.801 kg", "officer"],
      ["cell", "log!D4", "1.902 kg", "officer"],
    ]);
    expect(await reasonsOf(file)).toEqual([
      ...Array.from({ length: 5 }, () => "new"),
      ...[1, 2, 3].map(() => `new: grams-for-kilograms, confirmed by officer ${officer.id}`),
    ]);
    expect((await apiOf(opened.store, later).ledger.verify()).differences).toEqual([]);
  });

  test("what a confirmed fault changes says which fault it was and who confirmed it; other changes do not", async () => {
    const fresh = [9, 11, 13, 10, 12, 9.5, 11.5, 12.5, 10.5, 13.5];
    // a tare of one kilogram in both weights, as in the worked example: 0.32 of the fresh weight and 0.68
    const rows = fresh.map((kg, at) => `${10 + at}/01/2031;${at + 1};${kg};${(0.32 * kg + 0.68).toFixed(2)};80`);
    const file = await keep(`Date;Lot;Wet (kg);Dry (kg);Minutes\n${rows.join("\n")}\n`, "january.csv");
    await at(NOW).logs.count({ file });
    const seen = await at(NOW).logs.understood({ file });
    if ("refused" in seen) throw new Error(seen.refused);
    const fault = seen.look?.faults.find(({ code }) => code === "container-in-both");
    if (fault === undefined) throw new Error("no container was found");
    const answers = { faults: { [faultKey(fault)]: "yes" } } as const;
    await at("2031-08-04T08:00:00Z").logs.count({ file, again: true, answers });
    const put = await at(NOW).logs.file({ file });
    const later = { ...put.answers, cells: { ...put.answers?.cells, "log!E2": "85" } };
    await at("2031-08-05T08:00:00Z", officer).logs.count({ file, again: true, answers: later });
    expect(await reasonsOf(file)).toEqual([
      "changed",
      ...fresh.map(() => `changed: container-in-both, confirmed by lead ${lead.id}`),
      ...fresh.map(() => "new"),
    ]);
    expect((await apiOf(opened.store, NOW).ledger.verify()).differences).toEqual([]);
  });

  test("all rows of one doubt are settled at once, or stand as written with a flag; who settled each is kept", async () => {
    const log = `Date;Lot;Wet (kg);Dry (kg);Minutes
2031-03-10;1;5.1;1.7;80
2031-03-11;2;1.7;5.2;81
2031-03-12;3;1.8;5.1;82
2031-03-13;4;abc;1.6;83
2031-03-14;5;5.2;1.7;84
2031-03-15;6;5.3;5.4;85
`;
    const file = await keep(log, "march.csv");
    const alike = { "out-more-than-in log!D": "0" };
    const seen = await at(NOW).logs.understood({ file, answers: { alike, asWritten: ["log!D7"] } });
    expect(seen).toMatchObject({ counts: { counted: 5, held: 1 } });
    await at(NOW).logs.count({ file, answers: { alike, asWritten: ["log!D7"] } });
    const before = (await at(NOW).logs.file({ file })).answers ?? {};
    const later = "2031-08-04T08:00:00Z";
    const done = await at(later, officer).logs.count({
      file,
      again: true,
      answers: { ...before, asWritten: ["log!D7", "log!C5"] },
    });
    expect(done).toMatchObject({ slip: { rows: { counted: 6, held: 0 }, freshKg: expect.closeTo(25.9, 9) } });
    const rows = await at(later).logs.rows({ file });
    expect(rows.find(({ row }) => row === 5)).toMatchObject({
      fate: "counted",
      reasons: expect.arrayContaining([
        expect.objectContaining({ code: "accepted-as-written", text: "abc", doubt: "mass-not-a-number" }),
        expect.objectContaining({ code: "fresh-missing" }),
      ]),
    });
    const told = (await at(later).logs.file({ file })).settled;
    expect(new Set(told.filter(({ asked }) => asked === "cell").map(({ by }) => by))).toEqual(new Set(["lead"]));
    expect(told.filter(({ asked }) => asked === "as-written").map(({ place, by }) => `${place} ${by}`)).toEqual([
      "log!C5 officer",
      "log!D7 lead",
    ]);
    expect((await apiOf(opened.store, later).ledger.verify()).differences).toEqual([]);
  });

  test("the log's own totals are kept beside what was read, before it counts and on its slip", async () => {
    const log = `Date;Lot;Wet (kg);Dry (kg);Minutes
2031-02-10;1;5.1;1.7;80
2031-02-11;2;5.2;1.8;81
Total;;10.3;3.9;161
`;
    const file = await keep(log, "february.csv");
    const totals = [
      { meaning: "fresh", written: 10.3, read: 10.3 },
      { meaning: "dried", written: 3.9, read: 3.5 },
      { meaning: "minutes", written: 161, read: 161 },
    ];
    expect(await at(NOW).logs.understood({ file })).toMatchObject({ totals });
    expect(await at(NOW).logs.count({ file })).toMatchObject({ slip: { totals, open: 0 } });
  });
});
