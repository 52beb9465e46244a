import { LANGUAGES } from "#server/terms/headings/index";
import type { LanguageWords } from "#server/terms/headings/language";
import { plain } from "#server/terms/headings/plain";
import type { Meaning } from "#server/terms/row";
import { unitOf } from "../values/masses";

export type Language = LanguageWords["language"];

/** What a heading can mean. More than one meaning: the columns around it decide. */
export interface HeadingRead {
  readonly meanings: readonly Meaning[];
  readonly unit: string | null;
  /** "heading-known": the whole heading is in the catalogue; "heading-part": words of it are */
  readonly why: "heading-known" | "heading-part" | "heading-not-read";
  readonly languages: readonly Language[];
}

interface Phrase {
  readonly tokens: readonly string[];
  readonly meanings: readonly Meaning[];
  readonly language: Language;
}

const FILLERS = new Set(LANGUAGES.flatMap((language) => language.fillers.map(plain)));
const PHRASES = new Map<string, Phrase[]>();
const BY_TOKEN = new Map<string, Phrase[]>();
const NOT_READ = new Set(LANGUAGES.flatMap((language) => language.notRead.map((word) => keyOf(tokensOf(plain(word))))));

for (const language of LANGUAGES) {
  for (const [word, meanings] of Object.entries(language.unclear)) learn(word, meanings, language.language);
  for (const meaning of meaningsOf(language)) {
    for (const word of language.headings[meaning]) learn(word, [meaning], language.language);
  }
}

function meaningsOf({ headings }: LanguageWords): Meaning[] {
  return Object.keys(headings).filter((key): key is Meaning => key in headings);
}

function learn(word: string, meanings: readonly Meaning[], language: Language): void {
  const phrase = { tokens: tokensOf(plain(word)), meanings, language };
  push(PHRASES, keyOf(phrase.tokens), phrase);
  for (const token of phrase.tokens) push(BY_TOKEN, token, phrase);
}

function push<T>(map: Map<string, T[]>, key: string, value: T): void {
  const list = map.get(key);
  if (list === undefined) map.set(key, [value]);
  if (list !== undefined) list.push(value);
}

/** Words that carry meaning; a heading of fillers alone keeps them. */
function tokensOf(words: string): string[] {
  const all = words.split(" ").filter((word) => word !== "");
  const telling = all.filter((word) => !FILLERS.has(word));
  return telling.length === 0 ? all : telling;
}

function keyOf(tokens: readonly string[]): string {
  return [...new Set(tokens)].sort().join(" ");
}

/** Longer texts are remarks, not headings. */
const LONGEST_HEADING = 100;

/** So many headings of one language are remembered; then it begins anew. */
const MOST_REMEMBERED = 5_000;
const REMEMBERED = new Map<Language | null, Map<string, HeadingRead | null>>();

/**
 * Reads a heading; `first` is the language the other headings are in, which wins where two languages disagree. The same
 * few headings come again with every table and every reading of it, so what was looked up is remembered.
 */
export function readHeading(text: string, first: Language | null = null): HeadingRead | null {
  if (text.length > LONGEST_HEADING) return null;
  let own = REMEMBERED.get(first);
  if (own === undefined || own.size === MOST_REMEMBERED) {
    own = new Map();
    REMEMBERED.set(first, own);
  }
  const known = own.get(text);
  if (known !== undefined) return known;
  const read = lookedUp(text, first);
  own.set([...text].join(""), read); // a text of its own: part of another would keep the whole file in memory
  return read;
}

function lookedUp(text: string, first: Language | null): HeadingRead | null {
  const words = plain(text);
  if (words === "") return null;
  const unit = unitIn(text, words);
  const tokens = tokensOf(words);
  const outside = tokensOf(plain(text.replace(/[([{][^)\]}]*[)\]}]/g, " ")));
  const bare = unit === null ? tokens : tokens.filter((token) => unitOf(token) !== unit);
  for (const key of [keyOf(tokens), keyOf(outside), keyOf(bare)]) {
    if (NOT_READ.has(key) && key !== "") return { meanings: [], unit, why: "heading-not-read", languages: [] };
    const known = key === "" ? undefined : PHRASES.get(key);
    if (known) return answer(known, unit, "heading-known", first);
  }
  const ofBare = longestPart(bare);
  const part = ofBare.length > 0 ? ofBare : longestPart(outside);
  return part.length === 0 ? null : answer(part, unit, "heading-part", first);
}

function answer(
  found: readonly Phrase[],
  unit: string | null,
  why: HeadingRead["why"],
  first: Language | null,
): HeadingRead {
  const own = found.filter((phrase) => phrase.language === first);
  const chosen = own.length > 0 ? own : found;
  const meanings = [...new Set(chosen.flatMap((phrase) => phrase.meanings))];
  return { meanings, unit, why, languages: [...new Set(found.map((phrase) => phrase.language))] };
}

/** Of the known phrases whose words all stand in the heading, those with the most words, then the most letters. */
function longestPart(tokens: readonly string[]): Phrase[] {
  const here = new Set(tokens);
  let best: Phrase[] = [];
  let most = 0;
  for (const token of here) {
    for (const phrase of BY_TOKEN.get(token) ?? []) {
      if (phrase.tokens[0] !== token || !phrase.tokens.every((word) => here.has(word))) continue;
      const letters = phrase.tokens.join("").length;
      if (letters < 3) continue;
      const weight = phrase.tokens.length * 100 + letters;
      if (weight > most) best = [];
      if (weight >= most) best.push(phrase);
      most = Math.max(most, weight);
    }
  }
  return best;
}

/** The unit that a heading names, whatever its other words mean; null where it names none. */
export function headingUnit(text: string): string | null {
  if (text.length > LONGEST_HEADING) return null;
  const words = plain(text);
  return words === "" ? null : unitIn(text, words);
}

/** A unit in brackets or after a slash or comma; else any unit word of two letters or more; else a last "g" or "h". */
function unitIn(text: string, words: string): string | null {
  for (const [, inside = ""] of text.matchAll(/[([{]([^)\]}]*)[)\]}]/g)) {
    const unit =
      unitOf(inside) ??
      inside
        .split(/[\s,]+/)
        .map(unitOf)
        .find((found) => found !== null);
    if (unit) return unit;
  }
  const after = /[/,]\s*(\p{L}{1,4})\s*$/u.exec(text);
  const named = after ? unitOf(after[1] ?? "") : null;
  if (named !== null) return named;
  const tokens = words.split(" ");
  for (const token of tokens) {
    const unit = token.length >= 2 && !LOOSE.has(token) ? unitOf(token) : null;
    if (unit !== null && tokens.length > 1) return unit;
  }
  const last = tokens[tokens.length - 1] ?? "";
  if (tokens.length > 1 && /^[ghk]$/.test(last)) return unitOf(last);
  if (/^(?:min|mins|mn|minutes?|minutos?|menit|dakika)$/.test(words)) return "min";
  return words === "kwh" ? "kWh" : null;
}

/** Words that name a measure only in a cell: in a heading they name the thing ("loads", "pan", "bags", "units", "hours"). */
const LOOSE = new Set(
  LANGUAGES.flatMap((language) => [...language.containers.flat(), ...language.units.kWh, ...language.units.h])
    .map(plain)
    .filter((word) => word !== "kwh" && word !== "hrs" && word !== "hr"),
);
