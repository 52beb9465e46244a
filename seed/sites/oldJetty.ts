import { plusDays } from "#server/terms/days";
import type { Book, DemoSite, Nature, Written } from "../site";
import { clock, dayFirst, fileName, fullMonth } from "../writing/days";
import { type Line, loadLines, truthOf, withSlips } from "../writing/lines";
import { type Column, daysOff, delimited, type Row, rowsOf, withDaysOff } from "../writing/table";
import { gross, sumShown, weightsOf } from "../writing/weights";
import { usualFacts } from "./usualFacts";

const nature: Nature = {
  method: "sand-pan",
  pans: 2,
  loadsPerDay: 4,
  loadKg: 4.2,
  loadSpread: 0.08,
  weekdays: [1, 2, 3, 4, 5, 6],
  idleShare: 0.03,
  freshMoisture: 0.695,
  driedMoisture: 0.075,
  loss: 0.015,
  minutesPerLoad: 52,
  firstMinute: 8 * 60,
  scale: { unit: "kg", step: 0.02, places: 2 },
  fuel: "lpg",
  efficiency: 0.41,
  preheatMj: 4.5,
  cylinderKg: 13,
  steelKg: 14.6,
  fuelStep: 0.05,
};

/** English, commas, a line a load; the cylinder is weighed before the first load of a day and after the last. */
export const oldJetty: DemoSite = {
  code: "OJ",
  name: "Old Jetty",
  nature,
  lateShare: 0.05,
  declares: (from) =>
    usualFacts(from, {
      name: "Old Jetty",
      language: "en",
      nature,
      tally: false,
      decimalMark: ".",
      numbering: "day",
      hoursPerDay: 4,
      freshWeighed: "drained",
      driedWeighed: "cooled",
      dryMatterMeasured: 0.305,
    }),
  write,
};

function write(book: Book): Written {
  const { month, at, chance } = book;
  const lines = withSlips(book, loadLines(book), ["lost", "lost", "doubtful", "other-unit"]);
  const weights = weightsOf(book, ".", "lost");
  const by = chance.pick(["N. Arendt", "T. Okello-Ruiz", "M. Salvan"]);
  const columns: Column[] = [
    { heading: "Date", says: ({ day }) => dayFirst(day.day, "/") },
    { heading: "Load no", says: ({ number }) => number },
    ...(at < 10 ? [] : [{ heading: "Harvest code", says: ({ day }: Line) => harvestOf(day.day) }]),
    { heading: "Pan", says: ({ pan }) => pan },
    { heading: "Larvae in (kg)", says: weights.fresh },
    { heading: "Dried out (kg)", says: weights.dried },
    { heading: "Start", says: ({ startMinute }) => clock(startMinute) },
    { heading: "End", says: ({ startMinute, minutes }) => clock(startMinute + minutes) },
    { heading: "New sand", says: ({ newSand }) => (newSand ? "yes" : "") },
    { heading: "Crush test", says: ({ isCrisp, number }) => (number === 1 ? (isCrisp ? "pass" : "fail") : "") },
    { heading: "Cylinder before (kg)", says: ({ first, day }) => (first ? gross(book, day.gasBefore, ".") : "") },
    { heading: "Cylinder after (kg)", says: ({ last, day }) => (last ? gross(book, day.gasAfter, ".") : "") },
    { heading: "By", says: () => by },
    { heading: "Remarks", says: ({ isCrisp, day, first }) => remark(isCrisp, first && day.cylindersOn > 0) },
  ];
  const off = daysOff(book, ["no larvae", "rain", "no gas"], "public holiday");
  const rows = withDaysOff(
    lines,
    rowsOf(columns, lines),
    off.map(({ day, why }) => ({ day, row: [dayFirst(day, "/"), ...columns.slice(2).map(() => ""), why] })),
  );
  const preamble: Row[] =
    at % 3 === 2 ? [] : [["Old Jetty drying log"], [`Month: ${fullMonth(month, "en")} ${month.slice(0, 4)}`], []];
  const total: Row[] =
    at % 2 === 0
      ? [
          [
            "Total",
            ...columns.slice(1, at < 10 ? 3 : 4).map(() => ""),
            sumShown(book, lines, "freshSteps", "."),
            sumShown(book, lines, "driedSteps", "."),
          ],
        ]
      : [];
  const text = delimited(
    [...preamble, columns.map(({ heading }) => heading), ...rows, ...total],
    ",",
    at < 6 ? "\r\n" : "\n",
  );
  const name = fileName(oldJetty, `${fullMonth(month, "en")} ${month.slice(0, 4)}`, "csv");
  return { name, text, encoding: at % 4 === 1 ? "utf-8 with mark" : "utf-8", truth: truthOf(book, lines, "gross") };
}

/** Larvae are harvested the day before: "H-0304" is of 4 March. */
function harvestOf(day: string): string {
  return `H-${plusDays(day, -1).slice(5).replace("-", "")}`;
}

function remark(isCrisp: boolean, changed: boolean): string {
  if (changed) return "new cylinder put on, hose checked";
  return isCrisp ? "" : "a bit soft, dried again next day";
}
