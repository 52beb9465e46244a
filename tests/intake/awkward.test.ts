import { expect, test } from "vitest";
import { isUnreadable, readGrid } from "#server/intake/grid/readGrid";
import { readLog } from "#server/intake/readLog";
import type { Hints } from "#server/terms/row";
import { line } from "./readings";

const BOUNDS = { bytes: 2_000_000, unpackedBytes: 1e7, rows: 20_000, columns: 512, cellCharacters: 32_767, sheets: 9 };
const LOG = "Date,Batch no,Fresh (kg),Dried (kg),By\n2031-06-02,B1,10.5,3.3,José\n2031-06-13,B2,9,2.8,Asha\n";
const BATCHES = ["2031-06-02 #B1 10.5>3.3", "2031-06-13 #B2 9>2.8"];

function read(bytes: string | Uint8Array, hints: Hints = {}) {
  const grid = readGrid(typeof bytes === "string" ? Buffer.from(bytes) : bytes, "log.csv", BOUNDS);
  return isUnreadable(grid) ? grid.refused : readLog(grid, hints);
}

/** The batches that count, without their rows' remarks; or the refusal. */
function batches(bytes: string | Uint8Array, hints: Hints = {}): unknown {
  const found = read(bytes, hints);
  if (typeof found === "string") return found;
  const counted = found.rows.filter(({ fate, batch }) => fate === "counted" && batch !== null);
  return counted.map((row) =>
    line(row)
      .replace(/^\d+ counted /, "")
      .replace(/ \|.*$/, ""),
  );
}

const wide = (text: string) => Buffer.from(`\ufeff${text}`, "utf16le");
const latin = (text: string) => Buffer.from(text, "latin1");
const quoted = (text: string) => text.replace(/[^,\n]+/g, (cell) => `"${cell}"`);
const withComma = (text: string) => text.replaceAll(",", ";").replaceAll(".", ",");

test.each<[string, string | Uint8Array]>([
  ["a byte order mark", `\ufeff${LOG}`],
  ["UTF-16", wide(LOG)],
  ["UTF-16 with the high byte first", Buffer.from(wide(LOG)).swap16()],
  ["Windows-1252", latin(LOG)],
  ["CRLF", LOG.replaceAll("\n", "\r\n")],
  ["CR alone", LOG.replaceAll("\n", "\r")],
  ["mixed line ends", LOG.replace("\n", "\r\n")],
  ["no last line end", LOG.trimEnd()],
  ["semicolons and decimal commas", withComma(LOG)],
  ["tabs", LOG.replaceAll(",", "\t")],
  ["bars", LOG.replaceAll(",", "|")],
  ["a sep line", `sep=;\n${LOG.replaceAll(",", ";")}`],
  ["every cell quoted", quoted(LOG)],
  ["every line quoted as a whole", LOG.replace(/^.+$/gm, (text) => `"${text}"`)],
  ["a line end inside a cell", LOG.replace("José", '"José,\nlate"')],
  ["a stray quote", LOG.replace("José", 'Jo"sé')],
  ["a title and a blank line above", `Old Jetty,,,,\n\n${LOG}`],
  ["a row of units", LOG.replace("Fresh (kg),Dried (kg),By\n", "Fresh,Dried,By\n,,kg,kg,\n")],
  ["the heading once more", LOG.replace("2031-06-13", "Date,Batch no,Fresh (kg),Dried (kg),By\n2031-06-13")],
  ["a total", `${LOG}Total,,19.5,6.1,\n`],
  ["rows of separators", LOG.replace("2031-06-13", ",,,,\n2031-06-13").concat(",,,,\n,,,,\n")],
  ["a column of grams", LOG.replace("(kg),By", "(g),By").replace("3.3", "3300").replace("2.8", "2800")],
  [
    "columns in another order",
    "By,Dried (kg),Date,Fresh (kg),Batch no\n,3.3,2031-06-02,10.5,B1\n,2.8,2031-06-13,9,B2\n",
  ],
  ["headings that are names of the language's own", LOG.replace("By", "constructor").replace("José", "__proto__")],
  ["a column without a heading", LOG.replace(",By", ",")],
  ["zero bytes inside", LOG.replace("José", "Jo\0sé")],
  ["zero bytes behind", `${LOG}${"\0".repeat(300)}`],
  ["control characters", LOG.replace("José", "Jo\u0007sé")],
  ["an invalid byte in a name", latin(LOG.replace("By", "By \u20ac"))],
  ["digits of another script", LOG.replace("10.5", "١٠٫٥").replace(",9,", ",９,")],
  ["a formula in a remark", LOG.replace("José", "=cmd|'/C calc'!A0")],
])("a log with %s is read as what it says", (_, bytes) => {
  expect(batches(bytes, { period: "2031-06" })).toEqual(BATCHES);
});

test.each<[string, string, string[]]>([
  ["fewer cells than headings", "2031-06-14,B3,9.5\n", ["5 counted 2031-06-14 #B3 9.5>? | dried-to-come"]],
  [
    "more cells than headings",
    "2031-06-14,B3,9,5,2,9,Asha\n",
    ["5 held 2031-06-14 #B3 9>5 | yield-unusual row-too-wide"],
  ],
  ["a missing cell in the middle", "2031-06-14,9.5,3.1,Asha\n", ["5 held 2031-06-14 #9.5 3.1>? | mass-not-a-number"]],
  ["an impossible yield", "2031-06-14,B3,9,12,Asha\n", ["5 held 2031-06-14 #B3 9>12 | out-more-than-in"]],
  ["a day of another month", "2031-01-14,B3,9,3,Asha\n", ["5 held | day-outside-period"]],
  ["a day that never was", "2031-06-31,B3,9,3,Asha\n", ["5 held | day-not-a-date"]],
  ["a weight less than nothing", "2031-06-14,B3,-9,3,Asha\n", ["5 held 2031-06-14 #B3 ?>3 | mass-negative"]],
  [
    "a mark for the weight above, far right in its cell",
    "2031-06-14,B3,9,              ″,Asha\n",
    ["5 counted 2031-06-14 #B3 9>2.7 | repeated-by-ditto"],
  ],
  [
    "numbers that are none",
    "2031-06-14,B3,0x1F,Infinity,Asha\n",
    ["5 held 2031-06-14 #B3 ?>? | mass-not-a-number mass-not-a-number"],
  ],
])("a row with %s is told apart from the others", (_, row, expected) => {
  const LOADS = LOG.concat("2031-06-12,B0,8.5,2.7,Asha\n");
  const found = read(LOADS + row, { period: "2031-06" });
  if (typeof found === "string") throw new Error(found);
  expect(found.counts.rows).toBe(5);
  expect(found.rows.slice(4).map(line)).toEqual(expected);
  expect(found.counts.counted + found.counts.held).toBe(4);
});

test.each<[string, string, string]>([
  ["JSON", '{"rows":[{"date":"2031-06-02"}]}', "not-a-table"],
  ["a page", "<!doctype html><html><body><table></table></body></html>", "not-a-table"],
  [
    "an older kind of XML workbook",
    '<?xml version="1.0"?><Workbook xmlns="urn:schemas-microsoft-com"></Workbook>',
    "not-a-table",
  ],
  ["nothing but line ends", "\n".repeat(300_000), "empty-file"],
  ["a cell of a megabyte", `${LOG}2031-06-14,B3,9,3,${"a".repeat(1_000_000)}\n`, "cell-too-long"],
  ["a row of separators without end", `Date,In (kg),Out (kg)${",".repeat(200_000)}\n`, "too-many-columns"],
  ["more rows than allowed", `${LOG}${"2031-06-14,B3,9,3,Asha\n".repeat(20_000)}`, "too-many-rows"],
  ["more bytes than allowed", "a,b\n".repeat(600_000), "too-large"],
])("%s is refused with its reason", (_, text, refused) => {
  expect(read(text)).toBe(refused);
});

test("a flood of quotes and a log of headings alone give no batch and no error", () => {
  for (const text of ['"'.repeat(50_000), `${LOG.split("\n")[0]}\n`, "Name,Phone\nAmina,0700\n"]) {
    const found = read(text);
    if (typeof found !== "string") expect(found.counts.counted).toBe(0);
  }
});
