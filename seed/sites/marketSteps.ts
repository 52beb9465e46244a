import type { Book, DemoSite, Nature, Written } from "../site";
import { fileName, fullMonth, shortMonth } from "../writing/days";
import { loadLines, truthOf, withSlips } from "../writing/lines";
import { type Column, daysOff, type Row, rowsOf, typed, withDaysOff } from "../writing/table";
import { fuelShown, sumShown, weightsOf } from "../writing/weights";
import { usualFacts } from "./usualFacts";

const nature: Nature = {
  method: "microwave",
  pans: 1,
  loadsPerDay: 5,
  loadKg: 0.85,
  loadSpread: 0.07,
  weekdays: [1, 2, 3, 4, 5],
  idleShare: 0.04,
  freshMoisture: 0.69,
  driedMoisture: 0.06,
  loss: 0.01,
  minutesPerLoad: 21,
  firstMinute: 9 * 60,
  scale: { unit: "g", step: 2, places: 0 },
  fuel: "electricity",
  efficiency: 0.5,
  preheatMj: 0.4,
  cylinderKg: null,
  steelKg: 0,
  fuelStep: 0.1,
};

/** English, a workbook with real dates and numbers, grams; the meter's units stand with the first run of a day. */
export const marketSteps: DemoSite = {
  code: "MS",
  name: "Market Steps",
  nature,
  lateShare: 0.05,
  declares: (from) =>
    usualFacts(from, {
      name: "Market Steps",
      language: "en",
      nature,
      tally: false,
      decimalMark: ".",
      numbering: "day",
      hoursPerDay: 3.5,
      freshWeighed: "after-washing",
      driedWeighed: "cooled",
      dryMatterMeasured: 0.31,
    }),
  write,
};

function write(book: Book): Written {
  const { month, at, chance } = book;
  const lines = withSlips(book, loadLines(book), ["lost", "doubtful", "other-unit"]);
  const weights = weightsOf(book, ".", "not weighed");
  const by = chance.pick(["Priya L.", "Owen S."]);
  const columns: Column[] = [
    { heading: "Date", says: ({ day }) => ({ day: day.day }) },
    { heading: "Run", says: ({ number }) => number },
    { heading: "Fresh (g)", says: (line) => typed(weights.fresh(line)) },
    { heading: "Dried (g)", says: (line) => typed(weights.dried(line)) },
    { heading: "Minutes", says: ({ minutes }) => minutes },
    { heading: "Power (kWh)", says: ({ day, first }) => (first ? Number(fuelShown(book, day.fuelSteps, ".")) : null) },
    { heading: "Puffed and crisp", says: ({ isCrisp }) => (isCrisp ? "yes" : "no") },
    { heading: "Staff", says: () => by },
    { heading: "Notes", says: () => null },
  ];
  const off = daysOff(book, ["no larvae", "no power", "closed"], "public holiday");
  const rows = withDaysOff(
    lines,
    rowsOf(columns, lines),
    off.map(({ day, why }) => ({ day, row: [{ day }, null, null, null, null, null, null, null, why] })),
  );
  const total: Row[] =
    at % 2 === 0
      ? [
          [],
          [
            "Total",
            null,
            Number(sumShown(book, lines, "freshSteps", ".")),
            Number(sumShown(book, lines, "driedSteps", ".")),
          ],
        ]
      : [];
  const title: Row[] =
    at < 8 ? [[`Market Steps microwave log, ${fullMonth(month, "en")} ${month.slice(0, 4)}`], []] : [];
  const sheet = {
    name: `${shortMonth(month, "en")} ${month.slice(0, 4)}`,
    rows: [...title, columns.map(({ heading }) => heading), ...rows, ...total],
  };
  return { name: fileName(marketSteps, month, "xlsx"), sheets: [sheet], truth: truthOf(book, lines, "amount") };
}
