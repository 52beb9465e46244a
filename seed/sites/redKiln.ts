import type { Book, DemoSite, Nature, Written } from "../site";
import { dayInWords, fileName, fullMonth, hours } from "../writing/days";
import { loadLines, truthOf, withSlips } from "../writing/lines";
import { type Column, daysOff, delimited, type Row, rowsOf, withDaysOff } from "../writing/table";
import { sumShown, weightsOf } from "../writing/weights";
import { usualFacts } from "./usualFacts";

/** kg of firewood in one bundle, as the site weighed a few. */
const BUNDLE_KG = 2.6;

const nature: Nature = {
  method: "sand-pan",
  pans: 2,
  loadsPerDay: 5,
  loadKg: 4.3,
  loadSpread: 0.12,
  weekdays: [1, 2, 3, 4, 5, 6],
  idleShare: 0.05,
  freshMoisture: 0.7,
  driedMoisture: 0.08,
  loss: 0.025,
  minutesPerLoad: 62,
  firstMinute: 7 * 60 + 45,
  scale: { unit: "lb", step: 0.1, places: 1 },
  fuel: "firewood",
  efficiency: 0.19,
  preheatMj: 9,
  cylinderKg: null,
  steelKg: 0,
  fuelStep: BUNDLE_KG / 2,
};

/** Spanish, semicolons, pounds; the day is written once and repeated by a word, the wood counted in bundles. */
export const redKiln: DemoSite = {
  code: "RK",
  name: "Red Kiln",
  nature,
  lateShare: 0.1,
  declares: (from) => [
    ...usualFacts(from, {
      name: "Red Kiln",
      language: "es",
      nature,
      tally: false,
      decimalMark: ".",
      numbering: "day",
      hoursPerDay: 5,
      freshWeighed: "drained",
      driedWeighed: "cooled",
      dryMatterMeasured: null,
    }),
    { kind: "container", key: "haces", from, value: { kg: BUNDLE_KG } },
  ],
  write,
};

function write(book: Book): Written {
  const { month, at, chance } = book;
  const lines = withSlips(book, loadLines(book), ["lost", "doubtful", "swapped"]);
  const weights = weightsOf(book, ".", "perdido");
  const by = chance.pick(["Inés Q.", "Darío V.", "Lupe T."]);
  const columns: Column[] = [
    { heading: "Fecha", says: ({ day, first }) => (first ? dayInWords(day.day, "es") : "ídem") },
    { heading: "Tanda", says: ({ number }) => number },
    { heading: "Paila", says: ({ pan }) => pan },
    { heading: "Peso húmedo (lb)", says: weights.fresh },
    { heading: "Peso seco (lb)", says: weights.dried },
    { heading: "Tiempo", says: ({ minutes }) => hours(minutes) },
    { heading: "Leña (haces)", says: ({ day, first }) => (first ? String(day.fuelSteps / 2) : "") },
    { heading: "Crujiente", says: ({ isCrisp }) => (isCrisp ? "sí" : "no") },
    { heading: "Responsable", says: () => by },
    { heading: "Observaciones", says: ({ newSand }) => (newSand ? "arena nueva" : "") },
  ];
  const off = daysOff(book, ["sin larva", "lluvia", "no se trabajó"], "feriado");
  const rows = withDaysOff(
    lines,
    rowsOf(columns, lines),
    off.map(({ day, why }) => ({ day, row: [dayInWords(day, "es"), "", "", "", "", "", "", "", "", why] })),
  );
  const spaced = at % 2 === 0 ? rows : rows.flatMap((row) => (row[1] === 1 ? [columns.map(() => ""), row] : [row]));
  const total: Row = [
    "Suma",
    "",
    "",
    sumShown(book, lines, "freshSteps", "."),
    sumShown(book, lines, "driedSteps", "."),
    "",
    "",
    "",
    "",
    "",
  ];
  const heading = columns.map((column) => column.heading);
  const note: Row[] = at % 4 === 0 ? [["Pesos en libras, balanza de resorte"], [""]] : [];
  const text = delimited([...note, heading, ...spaced, total], ";");
  const name = fileName(redKiln, `${fullMonth(month, "es")} ${month.slice(0, 4)}`, "csv");
  return { name, text, encoding: "utf-8 with mark", truth: truthOf(book, lines, "amount") };
}
