import { archiveOf, type PartMade } from "./archiveOf";

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const RELATIONS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const PACKAGE = "http://schemas.openxmlformats.org/package/2006";
const SHEET_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml";

export interface WorkbookMade {
  /** what stands inside sheetData, one text a sheet */
  readonly sheets?: readonly string[];
  readonly states?: readonly string[];
  readonly texts?: readonly string[];
  /** number formats: by number alone, or written out */
  readonly formats?: readonly (number | string)[];
  readonly from1904?: boolean;
  readonly type?: string;
}

/** Parts of a small workbook made by hand, so that a test can change any of them. */
export function partsOf(made: WorkbookMade): PartMade[] {
  const sheets = made.sheets ?? ['<row r="1"><c r="A1"><v>1</v></c></row>'];
  const written = (made.formats ?? []).filter((format) => typeof format === "string");
  const idOf = (format: number | string) => (typeof format === "number" ? format : 164 + written.indexOf(format));
  return [
    {
      name: "[Content_Types].xml",
      content: `<Types xmlns="${PACKAGE}/content-types"><Override PartName="/xl/workbook.xml" ContentType="${made.type ?? SHEET_TYPE}"/></Types>`,
    },
    {
      name: "_rels/.rels",
      content: `<Relationships xmlns="${PACKAGE}/relationships"><Relationship Id="rId1" Type="${RELATIONS}/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
    },
    {
      name: "xl/workbook.xml",
      content: `<workbook xmlns="${MAIN}" xmlns:r="${RELATIONS}"><workbookPr${made.from1904 ? ' date1904="1"' : ""}/><sheets>${sheets
        .map(
          (_, i) =>
            `<sheet name="Week ${i + 1}" sheetId="${i + 1}" r:id="s${i}" state="${made.states?.[i] ?? "visible"}"/>`,
        )
        .join("")}</sheets></workbook>`,
    },
    {
      name: "xl/_rels/workbook.xml.rels",
      content: `<Relationships xmlns="${PACKAGE}/relationships">${sheets
        .map((_, i) => `<Relationship Id="s${i}" Type="${RELATIONS}/worksheet" Target="worksheets/sheet${i + 1}.xml"/>`)
        .join(
          "",
        )}<Relationship Id="t" Type="${RELATIONS}/sharedStrings" Target="/xl/sharedStrings.xml"/><Relationship Id="f" Type="${RELATIONS}/styles" Target="styles.xml"/></Relationships>`,
    },
    {
      name: "xl/sharedStrings.xml",
      content: `<sst xmlns="${MAIN}">${(made.texts ?? []).map((text) => `<si>${text}</si>`).join("")}</sst>`,
    },
    {
      name: "xl/styles.xml",
      content: `<styleSheet xmlns="${MAIN}"><numFmts>${written
        .map((code, i) => `<numFmt numFmtId="${164 + i}" formatCode="${code.replaceAll('"', "&quot;")}"/>`)
        .join("")}</numFmts><cellStyleXfs><xf numFmtId="14"/></cellStyleXfs><cellXfs><xf numFmtId="0"/>${(
        made.formats ?? []
      )
        .map((format) => `<xf numFmtId="${idOf(format)}"/>`)
        .join("")}</cellXfs></styleSheet>`,
    },
    ...sheets.map((rows, i) => ({
      name: `xl/worksheets/sheet${i + 1}.xml`,
      content: `<?xml version="1.0"?><worksheet xmlns="${MAIN}"><sheetData>${rows}</sheetData></worksheet>`,
    })),
  ];
}

/** A small workbook with some of its parts put in place of those that would be there. */
export function workbookOf(made: WorkbookMade, instead: readonly PartMade[] = []): Uint8Array {
  const names = new Set(instead.map((part) => part.name));
  return archiveOf([...partsOf(made).filter((part) => !names.has(part.name)), ...instead]);
}
