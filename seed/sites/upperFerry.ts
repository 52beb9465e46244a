import { weekday } from "#server/terms/days";
import type { Book, DemoSite, Nature, Written } from "../site";
import { dayFirst, fileName, fullMonth, hours } from "../writing/days";
import { tallyLines, truthOf, withSlips } from "../writing/lines";
import { type Column, daysOff, delimited, type Row, rowsOf, withDaysOff } from "../writing/table";
import { sumShown, weightsOf } from "../writing/weights";
import { usualFacts } from "./usualFacts";

const nature: Nature = {
  method: "sand-pan",
  pans: 1,
  loadsPerDay: 12,
  loadKg: 1,
  loadSpread: 0,
  weekdays: [1, 2, 3, 4, 5, 6],
  idleShare: 0.03,
  freshMoisture: 0.685,
  driedMoisture: 0.07,
  loss: 0.015,
  minutesPerLoad: 19,
  firstMinute: 7 * 60,
  scale: { unit: "kg", step: 0.01, places: 2 },
  fuel: "lpg",
  efficiency: 0.38,
  preheatMj: 4.5,
  cylinderKg: 6,
  steelKg: 6.4,
  fuelStep: 0.02,
  untilEmpty: true,
};

const WEEKDAYS = ["lun", "mar", "mer", "jeu", "ven", "sam", "dim"];

/**
 * French, semicolons and decimal commas saved as Windows-1252; one line a day, loads of one kilogram, marks for
 * new cylinders.
 */
export const upperFerry: DemoSite = {
  code: "UF",
  name: "Upper Ferry",
  nature,
  lateShare: 0.05,
  declares: (from) =>
    usualFacts(from, {
      name: "Upper Ferry",
      language: "fr",
      nature,
      tally: true,
      decimalMark: ",",
      numbering: "day",
      hoursPerDay: 7,
      freshWeighed: "drained",
      driedWeighed: "cooled",
      dryMatterMeasured: 0.315,
    }),
  write,
};

function write(book: Book): Written {
  const { month, at, chance } = book;
  const lines = withSlips(book, tallyLines(book), ["lost", "doubtful"]).map((line) =>
    line.day.cylindersOn > 0 ? { ...line, slip: null } : line,
  );
  const weights = weightsOf(book, ",", "perdu");
  const by = chance.pick(["C. Mbaye-Lenoir", "R. Duval", "S. Antoine"]);
  const dayShown = (day: string) => `${WEEKDAYS[weekday(day) - 1]} ${dayFirst(day, "/", at < 4 ? 4 : 2)}`;
  const columns: Column[] = [
    { heading: "Jour", says: ({ day }) => dayShown(day.day) },
    { heading: "Nbre de charges", says: ({ loads }) => loads },
    { heading: "Entrée (kg)", says: weights.fresh },
    { heading: "Sortie (kg)", says: weights.dried },
    { heading: "Durée", says: ({ minutes }) => hours(minutes) },
    { heading: "Nouvelle bouteille", says: ({ day }) => (day.cylindersOn > 0 ? "oui" : "") },
    { heading: "Visa", says: () => by },
    { heading: "Observations", says: ({ newSand }) => (newSand ? "sable changé" : "") },
  ];
  const off = daysOff(book, ["pas de larves", "pluie", "pas de gaz"], "férié");
  const rows = withDaysOff(
    lines,
    rowsOf(columns, lines),
    off.map(({ day, why }) => ({ day, row: [dayShown(day), "", "", "", "", "", "", why] })),
  );
  const preamble: Row[] = [
    [`Site : Upper Ferry`, "", "", "", "", "", "", ""],
    [`Mois : ${fullMonth(month, "fr")} ${month.slice(0, 4)}`, "", "", "", "", "", "", ""],
  ];
  const total: Row[] = [
    [
      "Total du mois",
      "",
      sumShown(book, lines, "freshSteps", ","),
      sumShown(book, lines, "driedSteps", ","),
      "",
      "",
      "",
      "",
    ],
  ];
  const text = delimited(
    [...(at % 2 === 0 ? preamble : []), columns.map(({ heading }) => heading), ...rows, ...(at % 3 === 0 ? [] : total)],
    ";",
  );
  return {
    name: fileName(upperFerry, fullMonth(month, "fr"), "csv"),
    text,
    encoding: "windows-1252",
    truth: truthOf(book, lines, "change"),
  };
}
