import { dayNumber } from "#server/terms/days";
import type { Book, DemoSite, Nature, SheetCell, Written } from "../site";
import { fileName, fullMonth, hours } from "../writing/days";
import { type Line, loadLines, truthOf, withSlips } from "../writing/lines";
import { type Column, tableOf, typed } from "../writing/table";
import { fuelShown, sumShown, weightsOf } from "../writing/weights";
import { usualFacts } from "./usualFacts";

const nature: Nature = {
  method: "sand-pan",
  pans: 1,
  loadsPerDay: 5,
  loadKg: 3.2,
  loadSpread: 0.1,
  weekdays: [1, 2, 3, 4, 5, 6],
  idleShare: 0.05,
  freshMoisture: 0.71,
  driedMoisture: 0.085,
  loss: 0.025,
  minutesPerLoad: 50,
  firstMinute: 18 * 60 + 30,
  scale: { unit: "kg", step: 0.05, places: 2 },
  fuel: "charcoal",
  efficiency: 0.26,
  preheatMj: 7,
  cylinderKg: null,
  steelKg: 0,
  fuelStep: 0.1,
};

/**
 * French, a workbook with a sheet a week, ditto marks below the day, evenings that run past midnight; many days
 * are never written.
 */
export const cattleBridge: DemoSite = {
  code: "CB",
  name: "Cattle Bridge",
  nature,
  lateShare: 0.35,
  declares: (from) =>
    usualFacts(from, {
      name: "Cattle Bridge",
      language: "fr",
      nature,
      tally: false,
      decimalMark: ",",
      numbering: "day",
      hoursPerDay: 6,
      freshWeighed: "before-washing",
      driedWeighed: "cooled",
      dryMatterMeasured: null,
    }),
  write,
};

function write(book: Book): Written {
  const { month, at, chance } = book;
  const lines = withSlips(book, loadLines(book), ["lost", "lost", "doubtful", "swapped"]);
  const weights = weightsOf(book, ".", "non pesé");
  const by = chance.pick(["Fanta D.", "Ibrahima S.", "Odile N."]);
  const columns: Column[] = [
    { heading: "Date", says: ({ day, first }) => (first ? { day: day.day } : '"') },
    { heading: "N° charge", says: ({ number }) => number },
    { heading: "Larves fraîches (kg)", says: (line) => typed(weights.fresh(line)) },
    { heading: "Larves séchées (kg)", says: (line) => typed(weights.dried(line)) },
    { heading: "Heure début", says: ({ startMinute }) => hours(startMinute) },
    { heading: "Heure fin", says: ({ startMinute, minutes }) => hours((startMinute + minutes) % 1440) },
    { heading: "Charbon (kg)", says: ({ day, first }) => (first ? Number(fuelShown(book, day.fuelSteps, ".")) : null) },
    { heading: "Sable changé", says: ({ newSand }) => (newSand ? "oui" : null) },
    { heading: "Agent", says: () => by },
  ];
  const weekOf = ({ day }: Line) => Math.floor((dayNumber(day.day) - dayNumber(`${month}-01`)) / 7) + 1;
  const weeks = [...new Set(lines.map(weekOf))].map(
    (week) => [week, lines.filter((line) => weekOf(line) === week)] as const,
  );
  const sheets = weeks.map(([week, own]) => ({
    name: `Semaine ${week}`,
    rows: [...tableOf(columns, own), totalOf(book, own)],
  }));
  const name = fileName(cattleBridge, `${at < 5 ? "fiche" : "rapport"} ${fullMonth(month, "fr")}`, "xlsx");
  return { name, sheets, truth: truthOf(book, lines, "amount") };
}

function totalOf(book: Book, lines: readonly Line[]): SheetCell[] {
  return [
    "Total",
    null,
    Number(sumShown(book, lines, "freshSteps", ".")),
    Number(sumShown(book, lines, "driedSteps", ".")),
  ];
}
