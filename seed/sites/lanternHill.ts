import type { Book, DemoSite, Nature, Written } from "../site";
import { fileName } from "../writing/days";
import { loadLines, truthOf } from "../writing/lines";
import { type Column, delimited, tableOf } from "../writing/table";
import { gross, weightsOf } from "../writing/weights";
import { usualFacts } from "./usualFacts";

const nature: Nature = {
  method: "sand-pan",
  pans: 1,
  loadsPerDay: 3,
  loadKg: 3.5,
  loadSpread: 0.1,
  weekdays: [1, 3, 5],
  idleShare: 0,
  freshMoisture: 0.7,
  driedMoisture: 0.09,
  loss: 0.03,
  minutesPerLoad: 58,
  firstMinute: 9 * 60,
  scale: { unit: "kg", step: 0.05, places: 2 },
  fuel: "lpg",
  efficiency: 0.34,
  preheatMj: 5,
  cylinderKg: 6,
  steelKg: 8.2,
  fuelStep: 0.05,
};

/** English, a new site's first page: plain headings without brackets, days with the year first. */
export const lanternHill: DemoSite = {
  code: "LH",
  name: "Lantern Hill",
  nature,
  lateShare: 0,
  declares: (from) =>
    usualFacts(from, {
      name: "Lantern Hill",
      language: "en",
      nature,
      tally: false,
      decimalMark: ".",
      numbering: "site",
      hoursPerDay: 4,
      freshWeighed: "drained",
      driedWeighed: "cooled",
      dryMatterMeasured: null,
    }),
  write,
};

function write(book: Book): Written {
  const lines = loadLines(book);
  const weights = weightsOf(book, ".", "lost");
  const columns: Column[] = [
    { heading: "batch no", says: ({ serial }) => serial },
    { heading: "date", says: ({ day }) => day.day },
    { heading: "kg in", says: weights.fresh },
    { heading: "kg out", says: weights.dried },
    { heading: "minutes", says: ({ minutes }) => minutes },
    { heading: "gas start kg", says: ({ day, first }) => (first ? gross(book, day.gasBefore, ".") : "") },
    { heading: "gas end kg", says: ({ day, last }) => (last ? gross(book, day.gasAfter, ".") : "") },
    { heading: "crush test", says: ({ isCrisp }) => (isCrisp ? "pass" : "fail") },
  ];
  const text = delimited(tableOf(columns, lines), ",", "\n");
  return {
    name: fileName(lanternHill, `log ${book.month}`, "csv"),
    text,
    encoding: "utf-8",
    truth: truthOf(book, lines, "gross"),
  };
}
