import type { Book, DemoSite, Nature, Written } from "../site";
import { dayInWords, fileName, fullMonth } from "../writing/days";
import { loadLines, truthOf, withSlips } from "../writing/lines";
import { type Column, daysOff, delimited, type Row, rowsOf, withDaysOff } from "../writing/table";
import { fuelShown, sumShown, weightsOf } from "../writing/weights";
import { usualFacts } from "./common";

const nature: Nature = {
  method: "sand-pan",
  pans: 1,
  loadsPerDay: 6,
  loadKg: 1.1,
  loadSpread: 0.06,
  weekdays: [1, 2, 3, 4, 5, 6],
  idleShare: 0.04,
  loggedShare: 1,
  freshMoisture: 0.705,
  driedMoisture: 0.085,
  loss: 0.02,
  minutesPerLoad: 26,
  firstMinute: 8 * 60 + 15,
  scale: { unit: "g", step: 1, places: 0 },
  fuel: "firewood",
  efficiency: 0.2,
  preheatMj: 9,
  cylinderKg: null,
  steelKg: 0,
  fuelStep: 0.1,
};

/** Indonesian, tabs, UTF-16, grams; the day stands once above its loads, with the day's firewood. */
export const palmgrove: DemoSite = {
  code: "PG",
  name: "Palmgrove",
  nature,
  lateShare: 0.1,
  declares: (from) =>
    usualFacts(from, {
      name: "Palmgrove",
      language: "id",
      nature,
      tally: false,
      decimalMark: ",",
      numbering: "day",
      hoursPerDay: 5,
      freshWeighed: "drained",
      driedWeighed: "cooled",
      dryMatterMeasured: null,
    }),
  write,
};

function write(book: Book): Written {
  const { month, at, chance } = book;
  const lines = withSlips(book, loadLines(book), ["lost", "doubtful", "other-unit"]);
  const weights = weightsOf(book, ",", "tidak ditimbang");
  const by = chance.pick(["Wulan", "Bagas", "Ratih"]);
  const columns: Column[] = [
    { heading: "Tanggal", says: ({ day, first }) => (first ? dayInWords(day.day, "id", at >= 3) : "") },
    { heading: "No", says: ({ number }) => number },
    { heading: "Wajan", says: ({ pan }) => pan },
    { heading: "Berat basah (g)", says: weights.fresh },
    { heading: "Berat kering (g)", says: weights.dried },
    { heading: "Lama (menit)", says: ({ minutes }) => minutes },
    { heading: "Kayu bakar (kg)", says: ({ day, first }) => (first ? fuelShown(book, day.fuelSteps, ",") : "") },
    { heading: "Renyah", says: ({ isCrisp, last }) => (last ? (isCrisp ? "ya" : "tidak") : "") },
    { heading: "Petugas", says: ({ first }) => (first ? by : "") },
    { heading: "Keterangan", says: ({ newSand }) => (newSand ? "pasir baru" : "") },
  ];
  const off = daysOff(book, ["tidak ada maggot", "hujan", "libur"], "libur");
  const rows = withDaysOff(
    lines,
    rowsOf(columns, lines),
    off.map(({ day, why }) => ({ day, row: [dayInWords(day, "id", at >= 3), "", "", "", "", "", "", "", "", why] })),
  );
  const total: Row[] =
    at % 2 === 0
      ? [
          [
            "Jumlah",
            "",
            "",
            sumShown(book, lines, "freshSteps", ","),
            sumShown(book, lines, "driedSteps", ","),
            "",
            "",
            "",
            "",
            "",
          ],
        ]
      : [];
  const preamble: Row[] = [
    ["LAPORAN PENGERINGAN"],
    ["Lokasi: Palmgrove"],
    [`Bulan: ${fullMonth(month, "id")} ${month.slice(0, 4)}`],
    [""],
  ];
  const text = delimited([...preamble, columns.map(({ heading }) => heading), ...rows, ...total], "\t");
  return {
    name: fileName(palmgrove, `laporan ${month.slice(5)}-${month.slice(0, 4)}`, "txt"),
    text,
    encoding: "utf-16",
    truth: truthOf(book, lines, "amount"),
  };
}
