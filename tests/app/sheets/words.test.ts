import { expect, test } from "vitest";
import { readGrid } from "#server/intake/grid/readGrid";
import { readLog } from "#server/intake/readLog";
import { readSettings } from "#server/settings";
import { LANGUAGES } from "#server/terms/headings/index";
import { plain } from "#server/terms/headings/plain";
import { CAUTIONS_IN } from "../../../app/sheets/cautionsIn";
import { sheetHeadings, sheetLanguage } from "../../../app/sheets/words";

const { bounds } = readSettings({});
const SHEETS = LANGUAGES.flatMap(({ language }) => (["daily", "load"] as const).map((kind) => ({ language, kind })));

/** What somebody could have written under a heading, on two days. */
const WRITTEN: Readonly<Record<string, readonly [string, string]>> = {
  day: ["14/03/2026", "15/03/2026"],
  "batch-number": ["1", "2"],
  pan: ["1", "2"],
  fresh: ["5.2", "5.15"],
  dried: ["1.7", "1.65"],
  "dried-day": ["15/03/2026", "16/03/2026"],
  start: ["08:00", "08:10"],
  end: ["09:20", "09:35"],
  minutes: ["80", "85"],
  "fuel-amount": ["1.4", "1.3"],
};

test.each(SHEETS)(
  "every heading of the $kind sheet in $language is read back as what it asks for",
  ({ language, kind }) => {
    const headings = sheetHeadings(language, kind);
    const cells = headings.map(({ meaning, heading }) => [heading, ...(WRITTEN[meaning] ?? ["", ""])]);
    const rows = kind === "load" ? cells : [0, 1, 2].map((at) => cells.map((cell) => cell[at] ?? ""));
    const text = rows.map((row) => row.join(";")).join("\n");
    const grid = readGrid(new TextEncoder().encode(`${text}\n`), "log", bounds);
    if ("refused" in grid) throw new Error(grid.refused);
    const reading = readLog(grid, { fuel: "lpg" });
    expect(reading.tables.flatMap(({ columns }) => columns.map(({ meaning }) => meaning))).toEqual(
      headings.map(({ meaning }) => meaning),
    );
    const batches = reading.rows.flatMap(({ fate, batch }) => (fate === "counted" && batch !== null ? [batch] : []));
    expect(batches.map(({ day, fresh, dried, minutes }) => [day, fresh?.value, dried?.value, minutes?.value])).toEqual([
      ["2026-03-14", 5.2, 1.7, 80],
      ["2026-03-15", 5.15, 1.65, 85],
    ]);
  },
);

test.each(SHEETS)("every heading of the $kind sheet in $language stands in its heading list", ({ language, kind }) => {
  const list = LANGUAGES.find((one) => one.language === language)?.headings;
  for (const { meaning, heading } of sheetHeadings(language, kind)) {
    const bare = plain(heading.replace(/ \(kg\)$/, ""));
    expect(list?.[meaning].map(plain)).toContain(bare);
  }
});

test("each language has every caution, and nothing else is a language of sheets", () => {
  for (const { language } of LANGUAGES) expect(CAUTIONS_IN[language]).toHaveLength(CAUTIONS_IN.en.length);
  expect(sheetLanguage("de")).toBe(null);
  expect(sheetLanguage("sw")).toBe("sw");
});
