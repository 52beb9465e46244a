import type { Problem, ProblemCode } from "#server/terms/problem";
import type { Unreadable } from "#server/terms/row";

/** One sentence a code: what is so, and what to do where something is to be done. `text` is the cell as written. */
const SENTENCES: Record<ProblemCode, (text: string) => string> = {
  "heading-row": () => "The headings of the table.",
  "units-row": () => "The units below the headings.",
  "before-the-table": () => "Above the table: not a batch.",
  "after-the-table": () => "Below the table: not a batch.",
  "blank-row": () => "An empty row.",
  "totals-row": () => "A total: it is compared with what was read, and never counted.",
  "note-row": () => "A note, not a batch.",
  "nothing-produced-row": () => "It says that nothing was produced.",
  "no-table-in-sheet": () =>
    "No table was found in this sheet. If there is one, give it headings such as date, fresh and dried.",
  "same-row-already-here": () => "The same row stands in another sheet of this file.",
  "hidden-sheet": () => "A hidden sheet is not read. Unhide it and send the log again if it belongs to it.",
  "set-aside-by-person": () => "Somebody decided that this is not a batch.",

  "day-missing": () => "There is no date. Write the date of the roasting day.",
  "day-not-a-date": (text) => `“${text}” is not a date that can be read. Write it like 2031-03-31 or 31 March 2031.`,
  "day-order-unclear": (text) => `“${text}” can be two different days. Say whether the day or the month comes first.`,
  "day-outside-period": (text) => `“${text}” lies far from the month of this log. Correct the date, or confirm it.`,
  "mass-not-a-number": (text) => `“${text}” is not a weight that can be read. Write a number, such as 3.2 kg.`,
  "mass-decimal-unclear": (text) => `“${text}” can be a decimal or thousands. Choose which one is meant.`,
  "mass-unit-unknown": (text) =>
    `“${text}” has no unit, and neither the heading nor the site says one. Say kg, g or lb.`,
  "mass-negative": (text) => `“${text}” is less than nothing. Correct the weight.`,
  "mass-error-cell": (text) => `The sheet shows the error “${text}” instead of a weight. Write the weight.`,
  "container-without-weight": (text) =>
    `“${text}” counts containers. Weigh a full one once and declare its kg, or write kg.`,
  "out-more-than-in": (text) =>
    `More came out than went in (“${text}”). Were the two weights exchanged, or was sand weighed with it?`,
  "unit-slip-suspected": (text) =>
    `“${text}” would fit in another unit, such as g instead of kg. Choose which one is meant.`,
  "dried-is-zero": () =>
    "The dried weight is zero. Leave it empty if it is still to come; let it stand if truly nothing was left.",
  "minutes-not-a-number": (text) => `“${text}” is not a time that can be read. Write minutes, such as 80, or 1h20.`,
  "minutes-unclear": (text) => `“${text}” can mean hours and minutes or a decimal. Write minutes, such as 80.`,
  "end-before-start": (text) => `It ends before it starts (“${text}”). Correct one of the two times.`,
  "fuel-not-a-number": (text) => `“${text}” is not an amount of fuel that can be read. Write a number with its unit.`,
  "fuel-unit-unknown": (text) =>
    `“${text}” has no unit of fuel that is known here. Write kg or kWh, or declare what a container holds.`,
  "fuel-negative": (text) =>
    `The fuel comes out as less than nothing (“${text}”). Was the cylinder changed in between?`,
  "loads-not-a-number": (text) => `“${text}” is not a number of loads. Write a whole number.`,
  "site-unknown": (text) =>
    text === ""
      ? "The row does not say which site it is from."
      : `There is no site “${text}”. Correct the name, or open the site first.`,
  "match-doubtful": () =>
    "This may be a load that an earlier log already has, or another one. Say which, or give the loads numbers.",
  "dried-without-load": (text) =>
    text !== ""
      ? `A dried weight of several loads together, “${text}”. Open the log and say which loads these are, send a log in which this row says their fresh weight as well, or give each load its own dried weight.`
      : "A dried weight whose load was not found. It is joined by itself once the log with the load is here; or open the log and say which load it is of.",
  "row-too-wide": () => "The row has more cells than the headings. Look whether a separator slipped into a cell.",
  "nothing-to-count": () => "There is a date and nothing that can be counted. Write the weights, or take the row out.",
  "column-unclear": (text) => `It is not clear what the column “${text}” means. Say what it holds.`,
  "fuel-type-unknown": (text) =>
    `“${text}” is an amount of fuel, but of which fuel? Say so in the heading, or declare the site's fuel.`,
  "row-cut-short": () => "The file breaks off in the middle of this row. Look whether all of it was sent.",

  "dried-to-come": () => "The dried weight is still to come.",
  "dried-missing": () => "There is no dried weight; the load counts for everything else.",
  "cell-not-read": (text) => `“${text}” was not read; the row counts without it.`,
  "repeated-by-ditto": () => "Filled in from the row above by a ditto mark.",
  "unit-from-site": () => "The unit is the one that the site declared.",
  "unit-from-cell": () => "The unit is the one in the cell, not the heading's.",
  "minutes-missing": () => "There are no minutes; the load counts for everything else.",
  "fresh-missing": () => "There is no fresh weight; the load counts for everything else.",
  "midnight-crossed": () => "It ends after midnight; it belongs to the day on which it started.",
  "yield-unusual": (text) =>
    `The yield of this load is unusual${text === "" ? "" : ` (“${text}”)`}. Look at both weights once more.`,
  "mass-lower-bound": (text) => `“${text}” says “at least”: it is taken as it stands.`,
  "day-closed": () => "The site had declared this day as closed.",
  "weighed-together": (text) =>
    text === ""
      ? "Its dried weight is that of several loads: they count as one set."
      : `Its load was weighed together with others: it counts with row ${text}.`,
  "accepted-as-written": (text) =>
    `Somebody looked at it and lets it stand as written${text === "" ? "" : ` (“${text}”)`}. What cannot be read there does not count.`,
};

/** What is the matter with a row, as a sentence for the site lead. */
export function reasonInWords({ code, text }: Pick<Problem, "code" | "text">): string {
  return SENTENCES[code](text.length > 60 ? `${text.slice(0, 57)}…` : text);
}

/** One doubt about one cell or several of a row, as a sentence. */
export function reasonsInWords(reasons: readonly Pick<Problem, "code" | "text">[]): string {
  const [first, second] = reasons;
  if (first === undefined) return "";
  if (second === undefined || first.code !== "unit-slip-suspected") return reasonInWords(first);
  return `“${second.text}” and “${first.text}” do not go together: one of them would fit in another unit, such as g instead of kg, or its point or comma stands for something else. Choose what is meant.`;
}

const REFUSALS: Record<Unreadable["refused"], (detail: string) => string> = {
  "empty-file": () => "The file is empty. Look whether the right one was chosen.",
  "too-large": (detail) => `The file is too large${detail === "" ? "" : ` (${detail})`}. Send it in parts.`,
  "too-many-rows": (detail) =>
    `There are too many rows with values${detail === "" ? "" : ` (${detail})`}. Send the log month by month.`,
  "too-many-columns": (detail) =>
    `A row has too many columns${detail === "" ? "" : ` (${detail})`}. Delete what stands far to the right of the table.`,
  "cell-too-long": (detail) =>
    `One cell holds far too much text${detail === "" ? "" : ` (${detail})`}. A quotation mark may be missing before it.`,
  "unpacks-too-large": (detail) =>
    `The workbook unpacks to far more than a log holds${detail === "" ? "" : ` (${detail})`}. Copy the table into a new workbook and send that.`,
  "damaged-archive": (detail) =>
    `The workbook is damaged${detail === "" ? "" : ` (${detail})`}. Open it, save it again as XLSX, and send that.`,
  encrypted: () => "The workbook has a password. Save it without one and send it again.",
  "macro-file": () => "The workbook holds macros. Save it as XLSX (a workbook without macros) and send that.",
  "old-spreadsheet": () => "This is an old kind of workbook (XLS). Open it, save it as XLSX, and send that.",
  "open-document": () => "This is an OpenDocument sheet. Save it as XLSX and send that.",
  picture: () => "This is a picture. Type its lines into a table and send the table.",
  pdf: () => "This is a PDF. Send the table it was made from, as XLSX or CSV.",
  "not-a-table": (detail) =>
    `No table was found in this file${detail === "" ? "" : ` (${detail})`}. Send a CSV or XLSX with headings such as date, fresh and dried.`,
  "unclosed-quote": (detail) =>
    `A quotation mark is opened and never closed${detail === "" ? "" : ` (${detail})`}. Correct it and send the log again.`,
  "not-text": () => "This is neither a workbook nor text. Save the table as XLSX or CSV and send that.",
  "too-slow": () => "The file takes too long to read. Copy the table into a new workbook and send that.",
};

/** Why a file cannot be read at all, and what to do. */
export function refusalInWords({ refused, detail }: Unreadable): string {
  return REFUSALS[refused](detail);
}
