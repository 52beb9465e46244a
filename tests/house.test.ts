import { existsSync, readdirSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { expect, test } from "vitest";

const terms = "server/terms";
const statistics = "server/statistics";
const pure = ["intake", "measures", "drift", "compare", "scrutiny", "evidence", "access"].map(
  (room) => `server/${room}`,
);
const rooms = [terms, statistics, ...pure];

/** Which rooms each room may open a door to. A room may always use itself. */
const doors: Record<string, readonly string[]> = {
  [terms]: [],
  [statistics]: [terms],
  "server/intake": [terms],
  "server/measures": [terms, statistics],
  "server/drift": [terms, statistics],
  "server/compare": [terms, statistics],
  "server/scrutiny": [terms, statistics],
  "server/evidence": [terms],
  "server/access": [terms],
  "server/jobs": [...rooms, "server", "db/queries", "db"],
  "server/api": [...rooms, "server/jobs", "server", "db/queries", "db"],
  "server/commands": [...rooms, "server/jobs", "server/api", "server", "db/queries", "db", "app/_words"],
  server: ["server/commands", "server/api", "server/jobs", "server/access", terms, "db", "db/queries", "seed"], // settings, command line, start: the front steps
  "db/schema": [terms],
  "db/queries": [terms, "db/schema", "db"],
  db: [terms, "db/schema", "db/queries", "server"],
  seed: [terms, statistics],
  "app/_words": [terms],
  app: [terms, "server/api", "app/_words"],
};
const inBrowser = [terms, "app/_words"];
const unplanned =
  /\b(Date\.now|Math\.random|performance\.|process\.|fetch\(|await |async |setTimeout|setInterval|random(Bytes|Int|UUID))|new Date\(\)/;
/** What a pure room may take from Node: the same answer to the same question, always. */
const steady = ["node:buffer", "node:crypto", "node:string_decoder", "node:util", "node:zlib"];

const files = ["app", "server", "db", "seed"]
  .filter((house) => existsSync(house))
  .flatMap((house) => readdirSync(house, { recursive: true, encoding: "utf8" }).map((name) => `${house}/${name}`))
  .filter((path) => /\.(tsx?|mjs)$/.test(path))
  .map((path) => ({ path, room: roomOf(path), text: readFileSync(path, "utf8") }));
const inPureRooms = files.filter((file) => rooms.includes(file.room));
type File = (typeof files)[number];

test("the top level holds what was planned and nothing else", () => {
  const planned = ["README.md", "DEVELOPERS.md", "LICENSE", "app", "server", "db", "seed", "tests"];
  const tools = [
    "package.json",
    "package-lock.json",
    "tsconfig.json",
    "next.config.mjs",
    "biome.json",
    "vitest.config.ts",
  ];
  const hidden = [".ci", ".gitattributes", ".gitignore"];
  const made = [".git", ".next", "data", "node_modules", "next-env.d.ts", "tsconfig.tsbuildinfo"]; // in no commit
  const here = readdirSync(".").filter((name) => !made.includes(name));
  expect(here.sort()).toEqual([...planned, ...tools, ...hidden].sort());
});

test("every file opens only the doors of its room", () => {
  const forbidden = ({ path, room, text }: File) => {
    const allowed = path.startsWith("app/_") || /^["']use client["']/.test(text) ? inBrowser : doors[room];
    const opened = importsOf(path, text).map(roomOf);
    return opened.filter((other) => other !== room && !allowed?.includes(other));
  };
  expect(offences(files, forbidden)).toEqual([]);
});

test("a door is opened with #, and inside a room one goes by ./", () => {
  const wrongWay = ({ path, text }: File) =>
    targetsOf(text).filter((target) => {
      const inside = hall(target.startsWith("#") ? target.slice(1) : join(dirname(path), target)) === hall(path);
      return target.startsWith("#") === inside;
    });
  expect(offences(files, wrongWay)).toEqual([]);
});

test("pure rooms ask nothing of clock, chance, disk or network", () => {
  const asked = ({ text }: File) => {
    const brought = [...text.matchAll(/["'](node:[\w/]+)["']/g)].map(([, name]) => name!);
    const found = withoutComments(text).match(unplanned)?.[0];
    return [...brought.filter((name) => !steady.includes(name)), ...(found === undefined ? [] : [found])];
  };
  expect(inPureRooms.length).toBeGreaterThan(0);
  expect(offences(inPureRooms, asked)).toEqual([]);
});

test("every file fits on a few screens", () => {
  const tooLong = ({ text }: File) => {
    const lines = text.trimEnd().split("\n").length;
    return lines > 250 ? [`${lines} lines`] : [];
  };
  const wordLists = /^server\/terms\/headings\//; // one per language, a line a meaning or more: nothing to split
  expect(
    offences(
      files.filter((file) => !wordLists.test(file.path)),
      tooLong,
    ),
  ).toEqual([]);
});

test("names are words that say something", () => {
  const muddy = /(^|[a-z])(util|helper|manager|service|handler)s?($|[A-Z])/i;
  const muddled = ({ path, text }: File) => {
    const name = path.split("/").at(-1)!.replace(/\..*$/, "");
    const exported = text.matchAll(/^export (?:async )?(?:function|const|class|interface|type) (\w+)/gm);
    return [name, ...[...exported].map(([, word]) => word!)].filter((word) => muddy.test(word));
  };
  expect(offences(files, muddled)).toEqual([]);
});

/** Where published numbers stand: with title, body, year and page beside them. */
const publishedIn = /^server\/terms\/(sources|factors)/;

test("published numbers stand only where their source is named", () => {
  const published = inPureRooms.filter((file) => publishedIn.test(file.path));
  const known = new Set(
    published
      .flatMap((file) => numbersOf(file.text))
      .filter(isTelling)
      .map(Number),
  );
  // Statistics and drift hold coefficients of numerical methods, which are named where they stand.
  const copying = inPureRooms.filter(
    ({ path, room }) => !publishedIn.test(path) && ![statistics, "server/drift"].includes(room),
  );
  const copied = ({ text }: File) =>
    numbersOf(text).filter((written) => {
      const measured = written.includes(".") && isTelling(written) && !ROUND.has(Number(written));
      return measured || (isTelling(written) && known.has(Number(written)));
    });
  expect(offences(copying, copied)).toEqual([]);
});

test("the rules above find what they are for", () => {
  expect(
    offences([{ path: "x.ts", room: terms, text: "const heat = x / 2.257 / y;" }], ({ text }) =>
      numbersOf(text).filter(isTelling),
    ),
  ).toEqual(["x.ts: 2.257"]);
  expect(importsOf("app/page.tsx", 'import { a } from "#db/client";\nimport type { B } from "#db/store";')).toEqual([
    "db/client",
  ]);
  expect(withoutComments("a; // process.env\n/* await */ b")).not.toMatch(unplanned);
  expect("await x").toMatch(unplanned);
});

function offences(among: readonly File[], find: (file: File) => readonly string[]): string[] {
  return among.flatMap((file) => find(file).map((what) => `${file.path}: ${what}`));
}

/** Inside one hall one goes by relative paths; the database and the pages are one hall each, with their rooms. */
function hall(path: string): string {
  return /^(db|app)\//.exec(path)?.[1] ?? roomOf(path);
}

/** Levels and shares that are nobody's measurement. */
const ROUND = new Set([0.025, 0.975, 0.995, 0.005, 0.999, 0.001, 0.125, 0.375, 0.625, 0.875]);

/** Numbers as they stand in code, outside comments and texts. */
function numbersOf(text: string): string[] {
  const code = withoutComments(text)
    .replace(/"(?:[^"\\\n]|\\.)*"|`(?:[^`\\]|\\.)*`/g, '""')
    .replace(/([(=,:[!&|?]\s*)\/(?:[^/\\\n]|\\.)+\/[gimsuy]*/g, "$1"); // patterns; a division has a number or name before it
  return [...code.matchAll(/(?<![\w.$])\d[\d_]*(?:\.\d+)?(?:e[+-]?\d+)?/g)].map(([written]) =>
    written.replaceAll("_", ""),
  );
}

/** Three digits or more that are not all zeros at the end: a number that somebody measured or fixed. */
function isTelling(written: string): boolean {
  const digits = written.replace(/e.*$/, "").replace(".", "").replace(/^0+/, "");
  const measured = written.includes(".") ? digits : digits.replace(/0+$/, "");
  return measured.length >= 3 && !["365", "366", "1440", "1024", "128", "256", "512"].includes(written);
}

function withoutComments(text: string): string {
  return text.replace(/\/\*[\s\S]*?\*\//g, "").replace(/(^|\s)\/\/.*$/gm, "$1");
}

/** "server/terms/figure.ts" is in room "server/terms"; "db/client.ts" stands in the hall, "db". */
function roomOf(path: string): string {
  const [house, room] = path.split("/");
  return `${house}/${room}` in doors ? `${house}/${room}` : house!;
}

/** What a file imports of ours at run time; `import type` leaves no trace and opens no door. */
function targetsOf(text: string): string[] {
  const found = text.matchAll(
    /^(?:import|export)(?! type)[^"';]*?["']([.#][^"']*)["']|\bimport\(["']([.#][^"']*)["']\)/gm,
  );
  return [...found].map(([, fixed, lazy]) => fixed ?? lazy!);
}

function importsOf(path: string, text: string): string[] {
  return targetsOf(text).map((target) => (target.startsWith("#") ? target.slice(1) : join(dirname(path), target)));
}
