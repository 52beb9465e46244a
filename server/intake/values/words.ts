import type { Method } from "#server/terms/batch";
import { LANGUAGES } from "#server/terms/headings/index";
import { type LanguageWords, UNIT_NAMES, type UnitName } from "#server/terms/headings/language";
import { plain } from "#server/terms/headings/plain";
import { isDigit } from "./decimals";

/** Words that stand in cells, of all languages together, made plain once. */
function setOf(pick: (words: LanguageWords) => readonly string[]): ReadonlySet<string> {
  return new Set(LANGUAGES.flatMap((language) => pick(language).map(plain)).filter((word) => word !== ""));
}

export const TOTALS = setOf((words) => words.totals);
export const AVERAGES = setOf((words) => words.averages);
export const NOTHING_PRODUCED = setOf((words) => words.nothingProduced);
export const MISSING = setOf((words) => words.missing);
export const TO_COME = setOf((words) => words.toCome);
/** Every form of a container's name, with all forms of it: "haces" finds what was declared for "haz". */
export const CONTAINERS: ReadonlyMap<string, ReadonlySet<string>> = formsOf(
  LANGUAGES.flatMap(({ containers }) => containers.map((all) => all.map(plain))),
);

function formsOf(lists: readonly (readonly string[])[]): ReadonlyMap<string, ReadonlySet<string>> {
  const found = new Map<string, Set<string>>();
  for (const list of lists) {
    for (const form of list) {
      const all = found.get(form) ?? new Set<string>();
      for (const other of list) all.add(other);
      found.set(form, all);
    }
  }
  return found;
}

/** What a weight's cell may say after its number that only repeats its column: "18 kg in", "5.9 out". */
export const REPEATS: Readonly<Record<"fresh" | "dried", ReadonlySet<string>>> = {
  fresh: setOf(({ headings }) => headings.fresh),
  dried: setOf(({ headings }) => headings.dried),
};
export const CYLINDER = setOf((words) => words.cylinder);
export const YES = setOf((words) => words.yes);
export const NO = setOf((words) => words.no);
export const PASS = setOf((words) => words.pass);
export const FAIL = setOf((words) => words.fail);
const DITTO_WORDS = setOf((words) => words.ditto);

/** January is 1. Short and long forms of every language; a form that means two months in two languages is left out. */
export const MONTHS: ReadonlyMap<string, number> = numbered((words) => words.months);
/** Monday is 1. */
export const WEEKDAYS: ReadonlyMap<string, number> = numbered((words) => words.weekdays);

function numbered(pick: (words: LanguageWords) => readonly (readonly string[])[]): ReadonlyMap<string, number> {
  const found = new Map<string, number>();
  const doubtful = new Set<string>();
  for (const language of LANGUAGES) {
    pick(language).forEach((forms, index) => {
      for (const form of forms.map(plain)) {
        if (found.has(form) && found.get(form) !== index + 1) doubtful.add(form);
        found.set(form, index + 1);
      }
    });
  }
  for (const form of doubtful) found.delete(form);
  return found;
}

export const UNITS: ReadonlyMap<string, UnitName> = new Map(
  LANGUAGES.flatMap((language) =>
    UNIT_NAMES.flatMap((unit) => language.units[unit].map((word): [string, UnitName] => [plain(word), unit])),
  ),
);

const METHOD_NAMES: readonly Method[] = ["sand-pan", "hot-air-cabinet", "microwave", "sun", "other"];

export const METHODS: ReadonlyMap<string, Method> = new Map(
  LANGUAGES.flatMap((language) =>
    METHOD_NAMES.flatMap((method) => language.methods[method].map((word): [string, Method] => [plain(word), method])),
  ),
);

const ABSENT = /^(?:|-+|–|—|\?+|\.+|…|x|\/|n\.a\.?)$/i;
const DITTO_SIGNS = /^(?:["″〃”“]|''|,,|-"-|-''-|↑|\^|v|s\.d\.a\.?)$/;

/** Nothing is said: an empty cell or a dash. */
export function isAbsent(text: string): boolean {
  if (text === "") return true;
  // most texts this short are numbers, and none of these marks ends in a digit
  return text.length <= 5 && !isDigit(text.charCodeAt(text.length - 1)) && ABSENT.test(text.trim());
}

/** "As above", by sign or by word. */
export function isDitto(text: string): boolean {
  const trimmed = text.trim();
  if (trimmed.length > 12 || /\d/.test(trimmed)) return false;
  return DITTO_SIGNS.test(trimmed) || (trimmed !== "" && DITTO_WORDS.has(plain(trimmed)));
}

/** True when the words as a whole, or their first one, two or three, are known. */
export function beginsWith(words: string, known: ReadonlySet<string>): boolean {
  if (known.has(words)) return true;
  const parts = words.split(" ");
  return [1, 2, 3].some((count) => parts.length > count && known.has(parts.slice(0, count).join(" ")));
}
