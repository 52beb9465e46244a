import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";

const ENGLISH = `Old Jetty drying log;;;;;
March 2021;;;;;
Date;Batch no;Fresh (kg);Dried (kg);Minutes;By
30/03/2021;1;10,0;3,30;95;Amara
31/03/2021;2;10,0;3,20;1h30;Amara
;3;12,0;3,90;110;"
Total;;32,0;10,4;;
`;
const FRENCH = `Date de séchage\tN° lot\tLarves fraîches (g)\tPoids sec (g)\tRemarques
13 avril 2021\t4\t9800\t3100\t
14 avril 2021\t5\t3.500\t1100\tvent fort
15 avril 2021\t6\t10100\t\tà peser demain
`;

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "evendry-commands-"));
  writeFileSync(join(folder, "march.csv"), ENGLISH);
  writeFileSync(join(folder, "avril.tsv"), FRENCH, "utf16le");
  writeFileSync(
    join(folder, "both.csv"),
    "Site,Date,Batch no,Fresh (kg),Dried (kg)\nOJ,2021-05-02,7,10,3.2\nSalt Lane,2021-05-02,1,8,2.6\nNowhere,2021-05-02,1,8,2.6\n",
  );
  writeFileSync(join(folder, "photo.csv"), Buffer.from("89504e470d0a1a0a0000000d49484452", "hex"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function evendry(...words: string[]): { out: string; err: string; exit: number | null; json: never } {
  const program = join(import.meta.dirname, "../../server/evendry.mjs");
  const { stdout, stderr, status } = spawnSync(process.execPath, [program, ...words], {
    cwd: folder,
    encoding: "utf8",
    env: { ...process.env, DATA_DIR: join(folder, "data"), DATABASE_URL: "" },
  });
  return {
    out: stdout,
    err: stderr,
    exit: status,
    get json(): never {
      return JSON.parse(stdout) as never;
    },
  };
}

test("read says what it understands of a log and stores nothing", () => {
  const read = evendry("read", "march.csv", "avril.tsv", "--json");
  expect(read.exit).toBe(0);
  expect(read.json).toMatchObject([
    {
      file: "march.csv",
      sha256: expect.stringMatching(/^[0-9a-f]{64}$/),
      tables: [
        {
          headingRow: 3,
          columns: [
            { column: "A", meaning: "day" },
            { column: "B" },
            { column: "C", meaning: "fresh", unit: "kg", sure: true, decimalMark: "," },
            {},
            {},
            {},
          ],
        },
      ],
      counts: { rows: 7, counted: 3, held: 0, setAside: 4 },
    },
    { file: "avril.tsv", counts: { rows: 4, counted: 2, held: 1, setAside: 1 } },
  ]);
  const [march, april] = read.json as {
    rows: {
      row: number;
      fate: string;
      reasons: { code: string; text: string }[];
      batch: { day: string; freshKg: number; minutes: number };
    }[];
  }[];
  expect(march?.rows.find(({ row }) => row === 6)).toMatchObject({
    fate: "counted",
    batch: { day: "2021-03-31", freshKg: 12 },
  });
  expect(march?.rows.find(({ row }) => row === 5)?.batch.minutes).toBe(90);
  expect(april?.rows.find(({ fate }) => fate === "held")?.reasons).toMatchObject([
    { code: "mass-decimal-unclear", text: expect.stringContaining("3.500") },
  ]);
});

test("a wrong call is a sentence with how it is right, and exit 2; a file that is not there exit 1", () => {
  expect(evendry("sing")).toMatchObject({
    exit: 2,
    out: "",
    err: expect.stringContaining("There is no command sing."),
  });
  expect(evendry("send", "march.csv")).toMatchObject({
    exit: 2,
    err: expect.stringContaining("Say either --site CODE or --by-site."),
  });
  expect(evendry("read", "none.csv")).toMatchObject({
    exit: 1,
    err: expect.stringContaining("The file none.csv cannot be read."),
  });
  expect(evendry("read", "photo.csv")).toMatchObject({ exit: 1, out: expect.stringContaining("This is a picture.") });
});

test("two untidy logs go in by command, figures come out with what they rest on, and the past can be asked", () => {
  for (const [code, name] of [
    ["OJ", "Old Jetty"],
    ["SL", "Salt Lane"],
  ] as const) {
    expect(
      evendry(
        "sites",
        "add",
        code,
        "--name",
        name,
        "--method",
        "sand-pan",
        "--pans",
        "2",
        "--hours",
        "8",
        "--from",
        "2021-01-01",
      ).exit,
    ).toBe(0);
  }
  expect(
    evendry(
      "facts",
      "OJ",
      "schedule",
      "--from",
      "2021-01-01",
      "--weekdays",
      "1,2,3,4,5,6,7",
      "--per-day",
      "1",
      "--of",
      "batches",
    ).exit,
  ).toBe(0);
  expect(evendry("facts", "OJ", "pans", "--from", "2021-01-01", "--pans", "none")).toMatchObject({
    exit: 2,
    err: expect.stringContaining("pans"),
  });
  const sent = evendry("send", "march.csv", "avril.tsv", "--site", "OJ", "--json");
  expect(sent).toMatchObject({ exit: 0 });
  expect(sent.json).toMatchObject([
    {
      code: expect.stringMatching(/^EV-[0-9A-Z]{8}$/),
      rows: { counted: 3, held: 0, setAside: 4 },
      batches: { new: 3 },
    },
    { rows: { counted: 2, held: 1, setAside: 1 }, driedToCome: 1, held: [{ row: 3, code: "mass-decimal-unclear" }] },
  ]);
  expect(evendry("send", "march.csv", "--site", "OJ", "--json").json).toEqual([(sent.json as unknown[])[0]]);

  const figures = evendry("figures", "--site", "OJ", "--from", "2021-03", "--to", "2021-04", "--json").json as {
    measure: string;
    from: string;
    value: number;
    unit: string;
    used: number;
    expected: number;
  }[];
  const of = (from: string) => figures.find((row) => row.measure === "dry-yield" && row.from === from);
  expect(of("2021-03-01")).toMatchObject({
    value: expect.closeTo(10.4 / 32, 12),
    unit: "kg/kg",
    used: 3,
    expected: 31,
  });
  expect(of("2021-04-01")).toMatchObject({ value: expect.closeTo(3.1 / 9.8, 12), used: 1, expected: 30 });
  const before = evendry("figures", "--site", "OJ", "--from", "2021-03", "--as-of", "2019-01-01", "--json").json as {
    measure: string;
    value: null;
    knownSize: number;
  }[];
  expect(before.find(({ measure }) => measure === "dry-yield")).toMatchObject({ value: null, knownSize: 0 });
}, 240_000);

test("a log of the programme goes to the sites that its rows name, and a row of no site is held", () => {
  expect(evendry("send", "both.csv", "--by-site", "--json").json).toMatchObject([
    { site: null, rows: { counted: 2, held: 1 }, held: [{ code: "site-unknown", text: "Nowhere" }] },
  ]);
});

test("verify finds everything as it was recorded, and people may act under their names", () => {
  expect(evendry("verify", "--json").json).toMatchObject({ differences: [], checked: { files: 3 } });
  const added = evendry("people", "add", "Joy Ferro", "--role", "lead", "--site", "SL", "--json").json as {
    password: string;
  };
  expect(added.password).toMatch(/^[a-z2-9]{4}(-[a-z2-9]{4}){3}$/);
  expect(evendry("figures", "--site", "OJ", "--from", "2021-03", "--as", "Joy Ferro")).toMatchObject({
    exit: 1,
    err: "There is no site OJ.\n",
  });
  expect(evendry("figures", "--site", "SL", "--from", "2021-05", "--as", "Joy Ferro")).toMatchObject({
    exit: 0,
    out: expect.stringContaining("dry-yield: 32.5 %"),
  });
}, 240_000);

test("every command says what it takes when asked, and that is no wrong call", () => {
  for (const command of ["signals", "verify"]) {
    const { out, err, exit } = evendry(command, "--help");
    expect({ command, err, exit }).toEqual({ command, err: "", exit: 0 });
    expect(out).toContain(command === "verify" ? "recomputes" : "--");
  }
});
