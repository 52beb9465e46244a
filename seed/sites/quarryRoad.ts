import type { Book, DemoSite, Nature, Written } from "../site";
import { fileName, fullMonth } from "../writing/days";
import { type Line, loadLines, truthOf, withSlips } from "../writing/lines";
import { type Column, daysOff, delimited, type Row, rowsOf, withDaysOff } from "../writing/table";
import { fuelShown, weightsOf } from "../writing/weights";
import { usualFacts } from "./usualFacts";

const onSand: Nature = {
  method: "sand-pan",
  pans: 2,
  loadsPerDay: 5,
  loadKg: 3.8,
  loadSpread: 0.09,
  weekdays: [1, 2, 3, 4, 5, 6],
  idleShare: 0.04,
  freshMoisture: 0.695,
  driedMoisture: 0.085,
  loss: 0.02,
  minutesPerLoad: 55,
  firstMinute: 8 * 60,
  scale: { unit: "kg", step: 0.02, places: 2 },
  fuel: "lpg",
  efficiency: 0.39,
  preheatMj: 4.8,
  cylinderKg: 13,
  steelKg: 14.2,
  fuelStep: 0.02,
};

const inCabinet: Nature = {
  ...onSand,
  method: "hot-air-cabinet",
  pans: 1,
  loadsPerDay: 2,
  loadKg: 9.5,
  loadSpread: 0.06,
  driedMoisture: 0.07,
  loss: 0.01,
  minutesPerLoad: 205,
  efficiency: 0.42,
  preheatMj: 5,
};

/**
 * Portuguese, semicolons, Windows-1252, units in the cells; half-way through the year pans of sand take the
 * place of a cabinet.
 */
export const quarryRoad: DemoSite = {
  code: "QR",
  name: "Quarry Road",
  nature: inCabinet,
  later: onSand,
  lateShare: 0.1,
  declares: (from) =>
    usualFacts(from, {
      name: "Quarry Road",
      language: "pt",
      nature: inCabinet,
      tally: false,
      decimalMark: ",",
      numbering: "day",
      hoursPerDay: 8.5,
      freshWeighed: "drained",
      driedWeighed: "cooled",
      dryMatterMeasured: 0.305,
    }),
  write,
};

function write(book: Book): Written {
  const { month, at, chance, nature } = book;
  const isCabinet = nature.method === "hot-air-cabinet";
  const lines = withSlips(book, loadLines(book), ["lost", "doubtful"]);
  const weights = weightsOf(book, ",", "perdido");
  const by = chance.pick(["Zulmira C.", "Tomé A."]);
  const withUnit = (text: string) => (/^\d/.test(text) && !text.endsWith("?") ? `${text} kg` : text);
  const columns: Column[] = [
    { heading: "Data", says: ({ day }) => day.day },
    { heading: "Nº carga", says: ({ number }) => number },
    isCabinet ? { heading: "Método", says: () => "ar quente" } : { heading: "Tacho", says: ({ pan }) => pan },
    { heading: "Entrada", says: (line) => withUnit(weights.fresh(line)) },
    { heading: "Saída", says: (line) => withUnit(weights.dried(line)) },
    { heading: "Minutos", says: ({ minutes }) => minutes },
    { heading: "Gás (kg)", says: ({ day, first }) => (first ? fuelShown(book, day.fuelSteps, ",") : "") },
    { heading: "Crocante", says: ({ isCrisp }) => (isCrisp ? "sim" : "não") },
    { heading: "Operador", says: () => by },
    ...(isCabinet ? [] : [{ heading: "Areia nova", says: ({ newSand }: Line) => (newSand ? "sim" : "") }]),
    { heading: "Observações", says: () => "" },
  ];
  const off = daysOff(book, ["sem larva", "chuva", "sem gás"], "feriado");
  const rows = withDaysOff(
    lines,
    rowsOf(columns, lines),
    off.map(({ day, why }) => ({ day, row: [day, ...columns.slice(2).map(() => ""), why] })),
  );
  const title: Row[] =
    at % 3 === 1 ? [["Registo de secagem", `${fullMonth(month, "pt")} ${month.slice(0, 4)}`], [""]] : [];
  const text = delimited([...title, columns.map(({ heading }) => heading), ...rows], ";");
  return {
    name: fileName(quarryRoad, `${month} secagem`, "csv"),
    text,
    encoding: "windows-1252",
    truth: truthOf(book, lines, "amount"),
  };
}
