import { XmlWalk } from "./xml";

/** What a number format makes of a number. "elapsed" runs past 24 hours. */
export type FormatKind = "number" | "day" | "time" | "elapsed";

/** Formats that a program knows by number alone: ECMA-376 part 1, 18.8.30, with those for East Asian languages. */
const BUILT_IN: readonly (readonly [number, number, FormatKind])[] = [
  [14, 17, "day"],
  [18, 21, "time"],
  [22, 22, "day"],
  [27, 31, "day"],
  [32, 35, "time"],
  [36, 36, "day"],
  [45, 45, "time"],
  [46, 46, "elapsed"],
  [47, 47, "time"],
  [50, 58, "day"],
];

/** Kind of each cell style of a workbook, in their order; null with the reason when the part is broken. */
export function formatKinds(bytes: Uint8Array): { readonly kinds: FormatKind[]; readonly broken: string | null } {
  const walk = new XmlWalk(bytes);
  const own = new Map<number, string>();
  const kinds: FormatKind[] = [];
  let inCells = false;
  while (walk.next()) {
    if (walk.name === "cellXfs") inCells = !walk.closes && !walk.empty;
    if (walk.closes) continue;
    const id = Number(walk.attribute("numFmtId") ?? 0);
    if (walk.name === "numFmt") own.set(id, walk.attribute("formatCode") ?? "");
    if (walk.name === "xf" && inCells) kinds.push(kindOfFormat(id, own.get(id)));
  }
  return { kinds, broken: walk.broken };
}

function kindOfFormat(id: number, code: string | undefined): FormatKind {
  if (code !== undefined) return kindOfCode(code);
  return BUILT_IN.find(([from, to]) => id >= from && id <= to)?.[2] ?? "number";
}

/**
 * Kind of a written number format, told from the letters of its first section that stand for parts of a date or time.
 *
 * Text in quotes, after a backslash, and in square brackets does not count, except [h], [m] and [s], which let hours,
 * minutes or seconds run on. kindOfCode('0.0" kg/day"') is "number", kindOfCode("[$-409]d-mmm;@") "day".
 */
export function kindOfCode(code: string): FormatKind {
  const plain = code.slice(0, 500).replace(/"[^"]*"?|\\.|[_*]./g, "");
  const section = plain.split(";")[0] ?? "";
  if (/\[(?:h+|m+|s+)\]/i.test(section)) return "elapsed";
  const letters = section.replace(/\[[^\]]*\]/g, "").replace(/am\/pm|a\/p|general/gi, "");
  const hasTime = /[hs]/i.test(letters);
  if (/[#?]/.test(letters) || (/0/.test(letters) && !hasTime)) return "number";
  if (/[yd]|m{3}|aaa|ggg/i.test(letters)) return "day";
  if (hasTime) return "time";
  return /m/i.test(letters) ? "day" : "number";
}
