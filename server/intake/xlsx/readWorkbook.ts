import type { Grid, Sheet } from "#server/terms/grid";
import type { Bounds, Unreadable } from "#server/terms/row";
import { type Archive, openArchive } from "./archive";
import type { Book } from "./cell";
import { type Contents, contentsOf } from "./contents";
import { SharedTexts } from "./sharedTexts";
import { sheetRows, type Taken } from "./sheet";
import { sharedTexts } from "./strings";
import { formatKinds } from "./styles";

/**
 * Reads a workbook (XLSX) into a grid: every sheet in the order of its tabs, hidden ones too and marked as such.
 *
 * The archive is checked before anything is unpacked, every part is checked against its checksum, and no document type
 * is read. Refuses what is no workbook, what carries macros, and what is damaged or larger than the bounds.
 */
export function readWorkbook(bytes: Uint8Array, bounds: Bounds): Grid | Unreadable {
  const archive = openArchive(bytes, bounds);
  if ("refused" in archive) return archive;
  const contents = contentsOf(archive);
  if ("refused" in contents) return contents;
  const { sheets: listed, from1904 } = contents;
  if (listed.length === 0) return { refused: "not-a-table", detail: "no sheet" };
  if (listed.length > bounds.sheets)
    return { refused: "too-large", detail: `sheets: ${listed.length} > ${bounds.sheets}` };
  const book = bookOf(archive, contents);
  if ("refused" in book) return book;

  const notes: Grid["notes"][number][] = [];
  if (from1904) notes.push({ code: "dates-from-1904", detail: "" });
  const taken: Taken = { rows: 0, places: 0 };
  const sheets: Sheet[] = [];
  for (const { name, part, hidden } of listed) {
    const content = contentOf(archive, part);
    if ("refused" in content) return content;
    const read = sheetRows(content, book, bounds, taken);
    if ("refused" in read) return { ...read, detail: `${name}: ${read.detail}` };
    if (hidden) notes.push({ code: "hidden-sheet", detail: name });
    if (read.hiddenRows > 0) notes.push({ code: "hidden-rows", detail: `${name}: ${read.hiddenRows}` });
    sheets.push({ name, hidden, rows: read.rows });
  }
  const damage = damageInRest(archive, contents);
  if (damage !== null) return damage;
  if (taken.rows === 0) return { refused: "empty-file", detail: "" };
  return { format: "xlsx", sheets, notes };
}

/** Shared texts and formats of a workbook; empty where it has no such part. */
function bookOf(archive: Archive, { texts, styles, from1904 }: Contents): Book | Unreadable {
  let shared: readonly string[] = [];
  let formats: Book["formats"] = [];
  if (texts !== null) {
    const content = contentOf(archive, texts);
    if ("refused" in content) return content;
    const read = sharedTexts(content);
    if (read.broken !== null) return { refused: "damaged-archive", detail: `${texts}: ${read.broken}` };
    shared = read.texts;
  }
  if (styles !== null) {
    const content = contentOf(archive, styles);
    if ("refused" in content) return content;
    const read = formatKinds(content);
    if (read.broken !== null) return { refused: "damaged-archive", detail: `${styles}: ${read.broken}` };
    formats = read.kinds;
  }
  const numbers = { number: new Map(), day: new Map(), time: new Map(), elapsed: new Map() };
  return { texts: new SharedTexts(shared), numbers, formats, from1904 };
}

/** A file damaged anywhere was damaged on its way: parts that hold no cells are checked as well. */
function damageInRest(archive: Archive, { sheets, texts, styles }: Contents): Unreadable | null {
  const read = new Set([...sheets.map((sheet) => sheet.part), texts, styles]);
  for (const part of archive.parts.values()) {
    if (read.has(part.name)) continue;
    const content = archive.unpack(part);
    if ("refused" in content) return content;
  }
  return null;
}

function contentOf(archive: Archive, name: string): Uint8Array | Unreadable {
  const part = archive.parts.get(name);
  return part === undefined ? { refused: "damaged-archive", detail: `${name} is missing` } : archive.unpack(part);
}
