import { expect, test } from "vitest";
import { shown } from "#seed/process/scales";
import { clock, dayFirst, dayInWords, hours } from "#seed/writing/days";
import { delimited, encoded } from "#seed/writing/table";
import { workbook } from "#seed/writing/workbook";
import { readGrid } from "#server/intake/grid/readGrid";
import { BOUNDS } from "../asRead";

test.each([
  { said: "two places with a point", says: shown(132, 0.05, 2), is: "6.60" },
  { said: "a decimal comma", says: shown(43, 0.1, 1, ","), is: "4,3" },
  { said: "a day with its year cut to two digits", says: dayFirst("2031-03-04", "/", 2), is: "04/03/31" },
  { said: "a day without its year", says: dayFirst("2031-03-04", ".", 0), is: "04.03" },
  { said: "a day in Indonesian", says: dayInWords("2031-08-04", "id"), is: "4 Agu 2031" },
  { said: "a day in Swahili without its year", says: dayInWords("2031-03-04", "sw", false), is: "4 Machi" },
  { said: "a time after midnight", says: clock(1450), is: "00:10" },
  { said: "hours and minutes", says: hours(185), is: "3h05" },
])("people write $said", ({ says, is }) => {
  expect(says).toBe(is);
});

test("cells with a delimiter, a quote or a line in them are quoted, so that a reader gets them back", () => {
  const rows = [
    ["Date", "Remarks"],
    ["03/03/2031", 'hose checked, "ok"'],
    ["04/03/2031", "two\nlines"],
  ];
  const read = readGrid(encoded(delimited(rows, ","), "utf-8"), "log.csv", BOUNDS);
  expect("refused" in read ? read : read.sheets[0]?.rows.map(({ cells }) => cells.map(({ text }) => text))).toEqual(
    rows,
  );
});

test.each(["utf-8", "utf-8 with mark", "windows-1252", "utf-16"] as const)("letters survive %s", (encoding) => {
  const rows = [
    ["Numéro", "Entrée (kg)", "Côté"],
    ["1", "4,20", "Nº 7, été"],
    ["2", "4,35", "Übersee"],
  ];
  const read = readGrid(encoded(delimited(rows, ";"), encoding), "log.csv", BOUNDS);
  expect("refused" in read ? read : read.sheets[0]?.rows.map(({ cells }) => cells.map(({ text }) => text))).toEqual(
    rows,
  );
});

test("a workbook holds days as days and is the same bytes whenever it is made", async () => {
  const sheets = [
    {
      name: "Mar 2031",
      rows: [
        ["Date", "Fresh (g)"],
        [{ day: "2031-03-04" }, 850],
      ],
    },
  ];
  const at = new Date("2031-04-02T08:00:00Z");
  const bytes = await workbook(sheets, at);
  const read = readGrid(bytes, "log.xlsx", BOUNDS);
  const cells = "refused" in read ? [] : read.sheets[0]?.rows[1]?.cells;
  // 47911 days after the beginning of the 1900 system: ECMA-376 Part 4, 3.17.4.1
  expect(cells).toMatchObject([
    { kind: "day", value: 47911 },
    { kind: "number", value: 850 },
  ]);
  await new Promise((resolve) => setTimeout(resolve, 2100)); // archives count time in steps of two seconds
  expect(Buffer.from(await workbook(sheets, at)).equals(bytes)).toBe(true);
});
