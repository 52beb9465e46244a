import { plusDays } from "#server/terms/days";
import type { Book, DemoSite, Nature, SheetCell, Truth, Written } from "../site";
import { clock, fileName, fullMonth } from "../writing/days";
import { type Line, loadLines, truthOf } from "../writing/lines";
import { type Column, tableOf } from "../writing/table";
import { gross, weightsOf } from "../writing/weights";
import { usualFacts } from "./usualFacts";

const nature: Nature = {
  method: "hot-air-cabinet",
  pans: 2,
  loadsPerDay: 2,
  loadKg: 14,
  loadSpread: 0.06,
  weekdays: [1, 2, 3, 4, 5, 6],
  idleShare: 0.04,
  freshMoisture: 0.69,
  driedMoisture: 0.075,
  loss: 0.01,
  minutesPerLoad: 340,
  firstMinute: 8 * 60,
  scale: { unit: "kg", step: 0.05, places: 2 },
  fuel: "lpg",
  efficiency: 0.4,
  preheatMj: 6,
  cylinderKg: 45,
  steelKg: 36,
  fuelStep: 0.1,
};

/**
 * Portuguese, a workbook of three sheets: loads, their dried weights of the next morning, and the cylinder's
 * weight each day.
 */
export const weirHouse: DemoSite = {
  code: "WH",
  name: "Weir House",
  nature,
  lateShare: 0.05,
  declares: (from) =>
    usualFacts(from, {
      name: "Weir House",
      language: "pt",
      nature,
      tally: false,
      decimalMark: ",",
      numbering: "site",
      hoursPerDay: 9,
      freshWeighed: "drained",
      driedWeighed: "next-morning",
      dryMatterMeasured: 0.31,
    }),
  write,
};

function write(book: Book): Written {
  const { month, chance } = book;
  const lines = loadLines(book);
  const weighed = weighedIn(book);
  const weights = weightsOf(book, ".", "");
  const by = chance.pick(["Rosa F.", "Edmilson P."]);
  const loads: Column[] = [
    { heading: "Data", says: ({ day }) => ({ day: day.day }) },
    { heading: "Nº fornada", says: numberOf },
    { heading: "Kg entrada", says: (line) => Number(weights.fresh(line)) },
    { heading: "Hora início", says: ({ startMinute }) => clock(startMinute) },
    { heading: "Hora fim", says: ({ startMinute, minutes }) => clock(startMinute + minutes) },
    { heading: "Responsável", says: () => by },
  ];
  const dried: Column[] = [
    { heading: "Nº fornada", says: numberOf },
    { heading: "Data da pesagem", says: ({ day }) => ({ day: plusDays(day.day, 1) }) },
    { heading: "Peso seco (kg)", says: (line) => Number(weights.dried(line)) },
  ];
  const gas: Column[] = [
    { heading: "Data", says: ({ day }) => ({ day: day.day }) },
    { heading: "Botijão antes (kg)", says: ({ day }) => Number(gross(book, day.gasBefore, ".")) },
    { heading: "Botijão depois (kg)", says: ({ day }) => Number(gross(book, day.gasAfter, ".")) },
  ];
  return {
    name: fileName(weirHouse, `${fullMonth(month, "pt")} ${month.slice(0, 4)}`, "xlsx"),
    sheets: [
      { name: "Fornadas", rows: tableOf(loads, lines) },
      { name: "Pesagens", rows: tableOf(dried, weighed) },
      {
        name: "Gás",
        rows: tableOf(
          gas,
          lines.filter(({ first }) => first),
        ),
      },
    ],
    truth: truth(book, lines, weighed),
  };
}

function numberOf({ serial }: Line): SheetCell {
  return `F${String(serial).padStart(4, "0")}`;
}

/**
 * The loads whose dried weight is known when the month's log is sent: those of its last day are weighed in the
 * next month.
 */
function weighedIn(book: Book): Line[] {
  const last = book.closesAfter ? undefined : book.days.at(-1);
  const days = [...(book.before === null ? [] : [book.before]), ...book.days.filter((day) => day !== last)];
  return loadLines({ ...book, days });
}

function truth(book: Book, lines: readonly Line[], weighed: readonly Line[]): Truth {
  const { driedKg } = truthOf(book, weighed, "gross");
  return { ...truthOf(book, lines, "gross", weighed.length + book.days.length), driedKg };
}
