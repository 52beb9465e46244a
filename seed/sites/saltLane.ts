import type { Book, DemoSite, Nature, Written } from "../site";
import { dayFirst, dayInWords, fileName, fullMonth } from "../writing/days";
import { tallyLines, truthOf, withSlips } from "../writing/lines";
import { type Column, daysOff, delimited, type Row, rowsOf, withDaysOff } from "../writing/table";
import { fuelShown, sumShown, weightsOf } from "../writing/weights";
import { usualFacts } from "./usualFacts";

const nature: Nature = {
  method: "sand-pan",
  pans: 1,
  loadsPerDay: 10,
  loadKg: 1,
  loadSpread: 0.03,
  weekdays: [1, 2, 3, 4, 5, 6],
  idleShare: 0.04,
  freshMoisture: 0.7,
  driedMoisture: 0.08,
  loss: 0.02,
  minutesPerLoad: 24,
  firstMinute: 7 * 60 + 30,
  scale: { unit: "kg", step: 0.01, places: 2 },
  fuel: "lpg",
  efficiency: 0.36,
  preheatMj: 4.2,
  cylinderKg: 15,
  steelKg: 15.8,
  fuelStep: 0.02,
};

/** Swahili, semicolons, one line a day: so many loads, so much in, so much out, and the gas of the day by weighing. */
export const saltLane: DemoSite = {
  code: "SL",
  name: "Salt Lane",
  nature,
  lateShare: 0.1,
  declares: (from) =>
    usualFacts(from, {
      name: "Salt Lane",
      language: "sw",
      nature,
      tally: true,
      decimalMark: ".",
      numbering: "day",
      hoursPerDay: 7,
      freshWeighed: "drained",
      driedWeighed: "cooled",
      dryMatterMeasured: null,
    }),
  write,
};

function write(book: Book): Written {
  const { month, at, chance } = book;
  const lines = withSlips(book, tallyLines(book), ["lost", "doubtful"]);
  const weights = weightsOf(book, ".", "imepotea");
  const by = chance.pick(["Asha M.", "Juma K.", "Neema R."]);
  const dayShown = (day: string) => (at < 6 ? dayInWords(day, "sw") : dayFirst(day, "."));
  const columns: Column[] = [
    { heading: "Tarehe", says: ({ day }) => dayShown(day.day) },
    { heading: "Idadi ya mizunguko", says: ({ loads }) => loads },
    { heading: "Kilo zilizoingia", says: weights.fresh },
    { heading: "Kilo zilizotoka", says: weights.dried },
    { heading: "Dakika", says: ({ minutes }) => minutes },
    { heading: "Gesi (kg)", says: ({ day }) => fuelShown(book, day.fuelSteps, ".") },
    { heading: "Mhusika", says: () => by },
    { heading: "Maoni", says: ({ day }) => (day.cylindersOn > 0 ? "mtungi mpya" : "") },
  ];
  const off = daysOff(book, ["hakuna mabuu", "mvua", "hakuna gesi"], "sikukuu");
  const rows = withDaysOff(
    lines,
    rowsOf(columns, lines),
    off.map(({ day, why }) => ({
      day,
      row: at % 2 === 0 ? [dayShown(day), "", why] : [dayShown(day), "", "", "", "", "", "", why],
    })),
  );
  const total: Row = [
    "Jumla",
    lines.reduce((sum, { loads }) => sum + loads, 0),
    sumShown(book, lines, "freshSteps", "."),
    sumShown(book, lines, "driedSteps", "."),
  ];
  const text = delimited([columns.map(({ heading }) => heading), ...rows, total], ";");
  return {
    name: fileName(saltLane, `${fullMonth(month, "sw")} ${month.slice(0, 4)}`, "csv"),
    text,
    encoding: "utf-8",
    truth: truthOf(book, lines, "amount"),
  };
}
