import { expect, test } from "vitest";
import { type Language, readHeading } from "#server/intake/columns/headingWords";
import { AVERAGES, isDitto, MONTHS, NOTHING_PRODUCED, TOTALS, UNITS, WEEKDAYS } from "#server/intake/values/words";
import { LANGUAGES } from "#server/terms/headings/index";
import { plain } from "#server/terms/headings/plain";
import { MEANINGS, type Meaning } from "#server/terms/row";
import { NOT_READ, ROW_WORDS, TRADE_WORDS } from "./tradeWords";

const ORDER: readonly Language[] = ["en", "fr", "es", "pt", "sw", "id"];
const words = (list: string) => list.split(", ");

const traded = TRADE_WORDS.flatMap(([meanings, ...lists]) =>
  lists.flatMap((list, at) => words(list).map((word) => ({ word, language: ORDER[at] ?? "en", meanings }))),
);

test.each(traded)("“$word” ($language) is read as one of $meanings", ({ word, language, meanings }) => {
  const read = readHeading(word, language);
  expect(read?.why).toBe("heading-known");
  expect(
    read?.meanings.some((meaning) => meanings.includes(meaning)),
    String(read?.meanings),
  ).toBe(true);
});

test.each(traded.filter(({ language }) => language === "en" || language === "fr"))(
  "“$word” ($language) has one meaning only, unless the catalogue says that it is unclear",
  ({ word, language }) => {
    const unclear = Object.keys(LANGUAGES.find((one) => one.language === language)?.unclear ?? {}).map(plain);
    const read = readHeading(word, language);
    expect(read?.meanings.length === 1 || unclear.includes(plain(word)), String(read?.meanings)).toBe(true);
  },
);

test.each(
  LANGUAGES.flatMap(({ language, headings }) =>
    MEANINGS.flatMap((meaning) => headings[meaning].map((word) => ({ language, meaning, word }))),
  ),
)("the catalogue's “$word” ($language) resolves to $meaning", ({ language, meaning, word }) => {
  expect(readHeading(word, language)).toMatchObject({ why: "heading-known" });
  expect(readHeading(word, language)?.meanings).toEqual([meaning]);
});

test.each(NOT_READ.flatMap((list, at) => words(list).map((word) => ({ word, language: ORDER[at] ?? "en" }))))(
  "“$word” ($language) is known and not read",
  ({ word, language }) => {
    expect(readHeading(word, language)).toMatchObject({ why: "heading-not-read", meanings: [] });
  },
);

test.each<[string, Language, Meaning[]]>([
  ["pétrole", "fr", ["kerosene"]],
  ["solar", "id", ["diesel"]],
  ["gas", "id", ["lpg"]],
  ["bahan", "id", ["fresh"]],
  ["carbón", "es", ["charcoal"]],
  ["carvão", "pt", ["charcoal"]],
  ["makaa", "sw", ["charcoal"]],
  ["bilha", "pt", ["lpg"]],
  ["LUKU", "sw", ["electricity"]],
  ["mafuta", "sw", ["fuel-type"]],
  ["mafuta ya taa", "sw", ["kerosene"]],
  ["units", "en", ["electricity"]],
  ["petróleo", "es", ["kerosene", "diesel"]],
  ["petróleo", "pt", ["kerosene", "diesel"]],
  ["charge", "fr", ["batch-number", "fresh", "loads"]],
  ["lot", "en", ["batch-number", "packed"]],
])("the false friend “%s” (%s) means %s", (word, language, meanings) => {
  expect(readHeading(word, language)?.meanings).toEqual(meanings);
});

test.each<[string, Meaning, string | null]>([
  ["Fresh larvae (kg)", "fresh", "kg"],
  ["Dried larvae [g]", "dried", "g"],
  ["Dry Weight (Kg)", "dried", "kg"],
  ["wet weight kg", "fresh", "kg"],
  ["Poids frais, kg", "fresh", "kg"],
  ["Larves fraîches (en kg)", "fresh", "kg"],
  ["Fuel used (kg)", "fuel-amount", "kg"],
  ["LPG consumed kg", "lpg", "kg"],
  ["Gaz (kg)", "lpg", "kg"],
  ["Électricité (kWh)", "electricity", "kWh"],
  ["kWh", "electricity", "kWh"],
  ["Durée (min)", "minutes", "min"],
  ["Drying time (h)", "minutes", "h"],
  ["Duration, hrs", "minutes", "h"],
  ["Drying minutes", "minutes", "min"],
  ["N° de fournée", "batch-number", null],
  ["DATE DE SÉCHAGE", "day", null],
  ["Weight of gas cylinder before", "cylinder-before", null],
  ["Fresh (buckets)", "fresh", "buckets"],
  ["Number of loads", "loads", null],
])("“%s” is %s in %s", (heading, meaning, unit) => {
  expect(readHeading(heading)).toMatchObject({ meanings: [meaning], unit });
});

test.each(["", "Village", "Phone", "__proto__", "constructor", "toString", "Monthly"])(
  "“%s” is not recognised",
  (heading) => {
    expect(readHeading(heading)).toBeNull();
  },
);

test("words of totals, averages and idle days are known in all languages", () => {
  for (const [lists, known] of [
    [ROW_WORDS.totals, TOTALS],
    [ROW_WORDS.averages, AVERAGES],
    [ROW_WORDS.nothing, NOTHING_PRODUCED],
  ] as const) {
    for (const word of lists.flatMap(words)) expect(known.has(plain(word)), word).toBe(true);
  }
});

test.each([
  '"',
  "''",
  "″",
  "〃",
  "”",
  "do",
  "do.",
  "id",
  "idem",
  "ibid",
  "same",
  "sda",
  "s.d.a.",
  "kama juu",
  "mesmo",
  "igual",
  '-"-',
  "↑",
  "v",
])("“%s” means as above", (mark) => {
  expect(isDitto(mark)).toBe(true);
});

test.each(["", "-", "3", "wood", "sand"])("“%s” does not mean as above", (text) => {
  expect(isDitto(text)).toBe(false);
});

test("every language has twelve months and seven days of the week, and each form of them is known", () => {
  for (const { language, months, weekdays } of LANGUAGES) {
    expect([months.length, weekdays.length], language).toEqual([12, 7]);
    months.forEach((forms, at) => {
      for (const form of forms) expect(MONTHS.get(plain(form)), `${language} ${form}`).toBe(at + 1);
    });
    for (const form of weekdays.flat()) expect(WEEKDAYS.has(plain(form)), `${language} ${form}`).toBe(true);
  }
});

test("a unit word means the same unit in every language", () => {
  for (const { language, units } of LANGUAGES) {
    for (const [unit, forms] of Object.entries(units)) {
      for (const form of forms) expect(UNITS.get(plain(form)), `${language} ${form}`).toBe(unit);
    }
  }
});
