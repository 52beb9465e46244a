import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { asPerson } from "#db/asPerson";
import { type Changes, changesOf } from "#db/queries/recorded";
import { digestOf } from "#server/evidence/digest";
import { append } from "#server/jobs/record";
import { OPERATOR } from "#server/terms/person";
import { freshStore, KINDS, type Opened } from "../setup/stores";

const FILE = "00000000-0000-8000-8000-000000000001";
/** Everything that one way of writing escapes and another does not, and what no database holds. */
const TEXTS = [
  "plain",
  'a "quoted" one',
  "back\\slash",
  "\\u0041 as written",
  "two\nlines\r\n\tand a tab",
  "\u0001",
  "NULL",
  "null",
  "",
  "{a,b}",
  "a,b",
  "ü € 鷂 🐛",
  "half \ud83d",
  "nul \u0000",
  "\u2028",
];

describe.each(KINDS)("what a command adds, on %s", (kind) => {
  let opened: Opened;
  beforeAll(async () => {
    opened = await freshStore(kind);
  });
  afterAll(() => opened.close());

  test("is hashed as the tables hold it, whatever the texts are", async () => {
    const rows = TEXTS.flatMap((text, at) => [
      row(at * 3, { sheet: text, cells: [{ text, meaning: "remarks", column: "A", none: undefined }], written: null }),
      row(at * 3 + 1, {
        sheet: "log",
        cells: [],
        written: { [text]: [text, null, -0, 0.1, true] },
        sealed: [text, "b"],
      }),
      row(at * 3 + 2, { sheet: "log", cells: [], written: text === "" ? null : { exact: text } }),
    ]);
    const { index, said } = await add({ rows });
    const held = await asPerson({ store: opened.store, person: OPERATOR.id }, (tx) => changesOf(tx, index));
    expect(held.rows).toHaveLength(rows.length);
    expect(digestOf(held)).toBe(said);
    const sheets = new Set(held.rows?.map(({ sheet }) => sheet));
    for (const text of TEXTS.slice(0, 12)) expect(sheets).toContain(text);
    expect(held.rows?.find((one) => one.row === 1)).toMatchObject({ sealed: ["plain", "b"], site: null });
  });

  test("and one row alone, of which every column has one value", async () => {
    const written = { said: 'a "b"\\' };
    const { index, said } = await add({ rows: [row(1000, { sheet: "{x}", cells: [], written, sealed: ['c"'] })] });
    const held = await asPerson({ store: opened.store, person: OPERATOR.id }, (tx) => changesOf(tx, index));
    expect(held.rows).toMatchObject([{ row: 1000, sheet: "{x}", written, sealed: ['c"'] }]);
    expect(digestOf(held)).toBe(said);
  });

  test("and cannot be added for a site that is another's", async () => {
    const lead = "00000000-0000-7000-8000-0000000000aa";
    await add({ people: [{ id: lead, role: "lead", site: 1, active: true, nameSealed: null }] });
    const sum = { day: "2032-01-01", method: "sand-pan", measure: "here", batches: 1, loads: 1, num: 1, den: 1 };
    const asLead = (sites: readonly number[]) =>
      asPerson({ store: opened.store, person: lead }, (tx) =>
        append(tx, lead, new Date(), {
          command: "send",
          site: 1,
          changes: { daySums: sites.map((site, at) => ({ ...sum, site, num: at })) },
        }),
      );
    await expect(asLead([1, 2])).rejects.toThrow();
    await expect(asLead([2])).rejects.toThrow();
    await expect(asLead([1])).resolves.toMatchObject({ command: "send" });
  });

  test.each([0, 2000, 4000])("and none of it stays where the database refuses its row %i", async (refused) => {
    const rows = Array.from({ length: 4001 }, (_, at) => ({
      ...row(2000 + at, { sheet: `refused ${refused}`, cells: [], written: null }),
      fate: at === refused ? "no fate" : "counted",
    }));
    await expect(add({ rows })).rejects.toThrow();
    const good = rows.filter(({ fate }) => fate === "counted");
    const { index, said } = await add({ rows: good });
    const held = await asPerson({ store: opened.store, person: OPERATOR.id }, (tx) => changesOf(tx, index));
    expect(held.rows).toHaveLength(good.length);
    expect(digestOf(held)).toBe(said);
  });

  async function add(changes: Changes) {
    const { index, record } = await asPerson({ store: opened.store, person: OPERATOR.id }, (tx) =>
      append(tx, OPERATOR.id, new Date(), { command: "send", site: null, changes }),
    );
    return { index, said: (JSON.parse(record) as { changes: string }).changes };
  }
});

function row(at: number, of: { sheet: string; cells: object[]; written: object | null; sealed?: string[] }) {
  return {
    file: FILE,
    row: at,
    site: null,
    fate: "counted",
    grain: null,
    driedOnly: false,
    reasons: [],
    sealed: [],
    ...of,
  };
}
