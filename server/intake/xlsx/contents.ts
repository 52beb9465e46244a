import type { Unreadable } from "#server/terms/row";
import type { Archive } from "./archive";
import { isTrue, XmlWalk } from "./xml";

/** A sheet as the workbook lists it: its tab, and the part that holds its cells. */
export interface SheetListed {
  readonly name: string;
  readonly part: string;
  readonly hidden: boolean;
}

export interface Contents {
  readonly sheets: readonly SheetListed[];
  readonly from1904: boolean;
  /** parts for the shared texts and the formats; null when the workbook has none */
  readonly texts: string | null;
  readonly styles: string | null;
}

const TYPES = "[Content_Types].xml";

/** What the workbook of an archive consists of; a refusal where the archive is something else or carries macros. */
export function contentsOf(archive: Archive): Contents | Unreadable {
  const kind = otherKind(archive);
  if (kind !== null) return kind;
  const roots = targetsFrom(archive, "");
  if ("refused" in roots) return roots;
  const workbook = roots.find(({ type }) => type === "officeDocument")?.part ?? "xl/workbook.xml";
  const walk = walkOf(archive, workbook);
  if ("refused" in walk) return walk;
  const targets = targetsFrom(archive, workbook);
  if ("refused" in targets) return targets;

  const sheets: SheetListed[] = [];
  let from1904 = false;
  while (walk.next()) {
    if (walk.closes) continue;
    if (walk.name === "workbookPr") from1904 = isTrue(walk.attribute("date1904"));
    if (walk.name !== "sheet") continue;
    const id = walk.attribute("id");
    const target = targets.find((one) => one.id === id);
    if (target === undefined) return damaged(`sheet ${walk.attribute("name") ?? ""} is missing`);
    const hidden = (walk.attribute("state") ?? "visible") !== "visible";
    if (target.type === "worksheet") sheets.push({ name: walk.attribute("name") ?? "", part: target.part, hidden });
  }
  if (walk.broken !== null) return damaged(`${workbook}: ${walk.broken}`);
  const partOf = (type: string) => targets.find((one) => one.type === type)?.part ?? null;
  return { sheets, from1904, texts: partOf("sharedStrings"), styles: partOf("styles") };
}

/** Refuses an archive that is not a workbook without macros, told from its parts and their declared types. */
function otherKind(archive: Archive): Unreadable | null {
  const mimetype = archive.parts.get("mimetype");
  if (mimetype !== undefined) {
    const content = archive.unpack(mimetype);
    if ("refused" in content) return content;
    const open = new TextDecoder().decode(content).startsWith("application/vnd.oasis.opendocument");
    return { refused: open ? "open-document" : "not-a-table", detail: "" };
  }
  if (!archive.parts.has(TYPES)) {
    const begun = [...archive.parts.keys()].some((name) => name.startsWith("xl/"));
    return { refused: begun ? "damaged-archive" : "not-a-table", detail: begun ? TYPES : "" };
  }
  const walk = walkOf(archive, TYPES);
  if ("refused" in walk) return walk;
  let workbook = false;
  let kind: Unreadable | null = null;
  while (walk.next()) {
    const type = walk.closes ? "" : (walk.attribute("ContentType") ?? "").toLowerCase();
    if (/macroenabled|macrosheet/.test(type)) kind = { refused: "macro-file", detail: "" };
    else if (type.includes("sheet.binary")) kind ??= { refused: "old-spreadsheet", detail: "" };
    else if (/spreadsheetml\.(?:sheet|template)\.main/.test(type)) workbook = true;
  }
  if (walk.broken !== null) return damaged(`${TYPES}: ${walk.broken}`);
  if ([...archive.parts.keys()].some((name) => name.toLowerCase().endsWith("vbaproject.bin"))) {
    return { refused: "macro-file", detail: "" };
  }
  return kind ?? (workbook ? null : { refused: "not-a-table", detail: "" });
}

interface Target {
  readonly id: string | null;
  /** last word of the relationship's type */
  readonly type: string;
  readonly part: string;
}

/** Where the relationships of a part lead; "" asks for those of the whole archive. Targets outside are left out. */
function targetsFrom(archive: Archive, part: string): Target[] | Unreadable {
  const slash = part.lastIndexOf("/") + 1;
  const folder = part.slice(0, slash);
  const name = `${folder}_rels/${part.slice(slash)}.rels`;
  if (!archive.parts.has(name)) return [];
  const walk = walkOf(archive, name);
  if ("refused" in walk) return walk;
  const targets: Target[] = [];
  while (walk.next()) {
    if (walk.name !== "Relationship" || walk.closes || walk.attribute("TargetMode") === "External") continue;
    const type = (walk.attribute("Type") ?? "").split("/").at(-1) ?? "";
    targets.push({ id: walk.attribute("Id"), type, part: resolved(folder, walk.attribute("Target") ?? "") });
  }
  return walk.broken === null ? targets : damaged(`${name}: ${walk.broken}`);
}

function resolved(folder: string, target: string): string {
  const steps = target.startsWith("/") ? [] : folder.split("/").filter((step) => step !== "");
  for (const step of target.split("/")) {
    if (step === "..") steps.pop();
    else if (step !== "" && step !== ".") steps.push(step);
  }
  return steps.join("/");
}

function walkOf(archive: Archive, name: string): XmlWalk | Unreadable {
  const part = archive.parts.get(name);
  if (part === undefined) return damaged(`${name} is missing`);
  const content = archive.unpack(part);
  return "refused" in content ? content : new XmlWalk(content);
}

function damaged(detail: string): Unreadable {
  return { refused: "damaged-archive", detail };
}
