import { z } from "zod";
import type { Said } from "#server/terms/answers";
import { type Answers, MEANINGS, type Meaning } from "#server/terms/row";
import { withoutForgotten } from "./forgotten";

type Told = { -readonly [Key in keyof Said]?: Said[Key] };
type Fields = Readonly<Record<string, string>>;

const cellsPut = z.record(z.string(), z.string().max(200));
const placesPut = z.array(z.string().max(300));

/**
 * The answers that a form carries, laid over those given before.
 *
 * Fields are named by what they answer: "meaning:June!C", "unit:June!C", "cell:June!C14" with a choice, "own:June!C14"
 * with what was typed instead, "puts:June!14" with several cells at once or a list of what stands as written,
 * "aside:June!14", "alike:" with a kind of doubt, "fault:" with a fault, "leftOut:June!3" with a table, "headings:June", "headingsFrom:June".
 * What is left empty answers nothing; "forget:cells June!C14" takes an answer back.
 */
export function answersOf(fields: Fields, given: Said | null): Said {
  const before = withoutForgotten(fields, given);
  const told: Told = { ...before };
  for (const [name, value] of Object.entries(fields)) {
    const text = value.trim();
    const [kind = "", place = ""] = split(name);
    if (text === "") continue;
    if (name === "dayOrder" && isOrder(text)) told.dayOrder = text;
    if (name === "decimalMark" && (text === "." || text === ",")) told.decimalMark = text;
    if (name === "clock" && (text === "dawn" || text === "midnight")) told.clock = text;
    if (name === "years" && (text === "buddhist" || text === "common")) told.years = text;
    if (name === "alone") told.alone = true;
    if (kind === "meaning" && isMeaning(text)) told.meanings = { ...told.meanings, [place]: text };
    if (kind === "are") told.are = { ...told.are, [place]: text };
    if (kind === "unit") told.units = { ...told.units, [place]: text };
    if (kind === "fault" && (text === "yes" || text === "no")) told.faults = { ...told.faults, [place]: text };
    if (kind === "alike") told.alike = { ...told.alike, [place]: text };
    if (kind === "headings" && /^\d{1,7}$/.test(text)) told.headings = { ...told.headings, [place]: Number(text) };
    if (kind === "headingsFrom" && /^[1-9]\d{0,6}$/.test(text))
      told.headingsFrom = { ...told.headingsFrom, [place]: Number(text) };
    if (kind === "aside") told.setAside = [...new Set([...(told.setAside ?? []), place])];
    if (kind === "leftOut") told.leftOut = [...new Set([...(told.leftOut ?? []), place])];
    if (kind === "readAgain") told.leftOut = (told.leftOut ?? []).filter((one) => one !== place);
  }
  const days = { ...before?.days, ...byPlace(fields, "day"), ...byPlace(fields, "ownDay") };
  if (Object.keys(days).length > 0) told.days = days;
  const stands = Object.values(byPlace(fields, "puts")).flatMap(
    (text) => placesPut.safeParse(unpacked(text)).data ?? [],
  );
  // what was chosen, then what one tap puts into several cells, then what was typed: the more deliberate wins
  const cells = { ...before?.cells, ...byPlace(fields, "cell"), ...putTogether(fields), ...byPlace(fields, "own") };
  if (stands.length > 0) told.asWritten = [...new Set([...(told.asWritten ?? []), ...stands])];
  return Object.keys(cells).length === 0 ? told : { ...told, cells };
}

function split(name: string): [kind?: string, place?: string] {
  const at = name.indexOf(":");
  return at < 0 ? [] : [name.slice(0, at), name.slice(at + 1)];
}

function byPlace(fields: Fields, wanted: string): Record<string, string> {
  return Object.fromEntries(
    Object.entries(fields).flatMap(([name, value]) => {
      const [kind, place] = split(name);
      return kind === wanted && place !== undefined && value.trim() !== "" ? [[place, value.trim()]] : [];
    }),
  );
}

function putTogether(fields: Fields): Record<string, string> {
  const all = Object.values(byPlace(fields, "puts"));
  return Object.assign({}, ...all.map((text) => cellsPut.safeParse(unpacked(text)).data ?? {}));
}

function unpacked(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null; // only our own pages write this field
  }
}

function isOrder(text: string): text is "dmy" | "mdy" | "ymd" {
  return text === "dmy" || text === "mdy" || text === "ymd";
}

function isMeaning(text: string): text is Meaning | "ignore" {
  return text === "ignore" || (MEANINGS as readonly string[]).includes(text);
}

/** How many answers there are, to say so. */
export function countAnswers({ dayOrder, decimalMark, clock, years, alone: _alone, ...many }: Answers): number {
  const single = [dayOrder, decimalMark, clock, years].filter((one) => one !== undefined).length;
  return Object.values(many).reduce((sum, all) => sum + Object.keys(all ?? {}).length, single);
}
