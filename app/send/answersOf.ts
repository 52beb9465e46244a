import { z } from "zod";
import { type Answers, MEANINGS, type Meaning } from "#server/terms/row";

type Told = { -readonly [Key in keyof Answers]?: Answers[Key] };

const cellsPut = z.record(z.string(), z.string().max(200));

/**
 * The answers that a form carries, laid over those given before.
 *
 * Fields are named by what they answer: "meaning:June!C", "unit:June!C", "cell:June!C14" with a choice, "own:June!C14"
 * with what was typed instead, "puts:June!14" with several cells at once, "aside:June!14". What is left empty answers nothing.
 */
export function answersOf(fields: Readonly<Record<string, string>>, before: Answers | null): Answers {
  const told: Told = { ...before };
  for (const [name, value] of Object.entries(fields)) {
    const text = value.trim();
    const [kind = "", place = ""] = split(name);
    if (text === "") continue;
    if (name === "dayOrder" && isOrder(text)) told.dayOrder = text;
    if (name === "decimalMark" && (text === "." || text === ",")) told.decimalMark = text;
    if (name === "clock" && (text === "dawn" || text === "midnight")) told.clock = text;
    if (name === "years" && (text === "buddhist" || text === "common")) told.years = text;
    if (kind === "meaning" && isMeaning(text)) told.meanings = { ...told.meanings, [place]: text };
    if (kind === "unit") told.units = { ...told.units, [place]: text };
    if (kind === "swap") told.meanings = { ...told.meanings, ...exchanged(place, text) };
    if (kind === "are") told.are = { ...told.are, [place]: text };
    if (kind === "aside") told.setAside = [...new Set([...(told.setAside ?? []), place])];
  }
  const days = { ...before?.days, ...byPlace(fields, "day"), ...byPlace(fields, "ownDay") };
  if (Object.keys(days).length > 0) told.days = days;
  // what was chosen, then what one tap puts into several cells, then what was typed: the more deliberate wins
  const cells = { ...before?.cells, ...byPlace(fields, "cell"), ...putTogether(fields), ...byPlace(fields, "own") };
  return Object.keys(cells).length === 0 ? told : { ...told, cells };
}

function split(name: string): [kind?: string, place?: string] {
  const at = name.indexOf(":");
  return at < 0 ? [] : [name.slice(0, at), name.slice(at + 1)];
}

function byPlace(fields: Readonly<Record<string, string>>, wanted: string): Record<string, string> {
  return Object.fromEntries(
    Object.entries(fields).flatMap(([name, value]) => {
      const [kind, place] = split(name);
      return kind === wanted && place !== undefined && value.trim() !== "" ? [[place, value.trim()]] : [];
    }),
  );
}

function putTogether(fields: Readonly<Record<string, string>>): Record<string, string> {
  return Object.assign({}, ...Object.values(byPlace(fields, "puts")).map(readPuts));
}

function readPuts(text: string): Record<string, string> {
  try {
    return cellsPut.safeParse(JSON.parse(text)).data ?? {};
  } catch {
    return {}; // only our own pages write this field
  }
}

/** "C D" of a sheet: what was fresh is dried, and the other way round. */
function exchanged(sheet: string, columns: string): Record<string, Meaning> {
  const [fresh, dried] = columns.split(" ");
  return fresh === undefined || dried === undefined
    ? {}
    : { [`${sheet}!${fresh}`]: "dried", [`${sheet}!${dried}`]: "fresh" };
}

function isOrder(text: string): text is "dmy" | "mdy" | "ymd" {
  return text === "dmy" || text === "mdy" || text === "ymd";
}

function isMeaning(text: string): text is Meaning | "ignore" {
  return text === "ignore" || (MEANINGS as readonly string[]).includes(text);
}

/** How many answers there are, to say so. */
export function countAnswers({ dayOrder, decimalMark, clock, years, ...many }: Answers): number {
  const single = [dayOrder, decimalMark, clock, years].filter((one) => one !== undefined).length;
  return Object.values(many).reduce((sum, all) => sum + Object.keys(all ?? {}).length, single);
}
