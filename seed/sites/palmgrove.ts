import type { Book, DemoSite, Nature, Written } from "../site";
import { dayInWords, fileName, fullMonth } from "../writing/days";
import { type Line, loadLines, truthOf, withSlips } from "../writing/lines";
import { type Column, daysOff, delimited, type Row, rowsOf, typed, withDaysOff } from "../writing/table";
import { fuelShown, sumShown, weightsOf } from "../writing/weights";
import { usualFacts } from "./usualFacts";

const nature: Nature = {
  method: "sand-pan",
  pans: 1,
  loadsPerDay: 6,
  loadKg: 1.1,
  loadSpread: 0.06,
  weekdays: [1, 2, 3, 4, 5, 6],
  idleShare: 0.04,
  freshMoisture: 0.705,
  driedMoisture: 0.085,
  loss: 0.02,
  minutesPerLoad: 26,
  firstMinute: 8 * 60 + 15,
  scale: { unit: "g", step: 1, places: 0 },
  fuel: "lpg",
  efficiency: 0.35,
  preheatMj: 3.8,
  cylinderKg: 3,
  steelKg: 5,
  fuelStep: 0.02,
};

/**
 * Indonesian, grams: tabs in UTF-16 with the day once above its loads and its gas, later a workbook of its
 * own layout.
 */
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

/** From this month on, counted from the first, somebody has a computer. */
const WORKBOOK_FROM = 9;

function write(book: Book): Written {
  const lines = withSlips(book, loadLines(book), ["lost", "doubtful", "other-unit"]);
  const by = book.chance.pick(["Wulan", "Bagas", "Ratih"]);
  const off = daysOff(book, ["tidak ada maggot", "hujan", "libur"], "libur");
  return book.at < WORKBOOK_FROM ? asText(book, lines, by, off) : asWorkbook(book, lines, by, off);
}

function asText(book: Book, lines: readonly Line[], by: string, off: readonly { day: string; why: string }[]): Written {
  const { month, at } = book;
  const weights = weightsOf(book, ",", "tidak ditimbang");
  const dayShown = (day: string) => dayInWords(day, "id", at >= 3);
  const columns: Column[] = [
    { heading: "Tanggal", says: ({ day, first }) => (first ? dayShown(day.day) : "") },
    { heading: "No", says: ({ number }) => number },
    { heading: "Wajan", says: ({ pan }) => pan },
    { heading: "Berat basah (g)", says: weights.fresh },
    { heading: "Berat kering (g)", says: weights.dried },
    { heading: "Lama (menit)", says: ({ minutes }) => minutes },
    { heading: "Gas (kg)", says: ({ day, first }) => (first ? fuelShown(book, day.fuelSteps, ",") : "") },
    { heading: "Renyah", says: ({ isCrisp, last }) => (last ? (isCrisp ? "ya" : "tidak") : "") },
    { heading: "Petugas", says: ({ first }) => (first ? by : "") },
    { heading: "Keterangan", says: ({ newSand }) => (newSand ? "pasir baru" : "") },
  ];
  const rows = withDaysOff(
    lines,
    rowsOf(columns, lines),
    off.map(({ day, why }) => ({ day, row: [dayShown(day), ...columns.slice(2).map(() => ""), why] })),
  );
  const total: Row = [
    "Jumlah",
    "",
    "",
    sumShown(book, lines, "freshSteps", ","),
    sumShown(book, lines, "driedSteps", ","),
  ];
  const title: Row[] = [
    ["LAPORAN PENGERINGAN"],
    ["Lokasi: Palmgrove"],
    [`Bulan: ${fullMonth(month, "id")} ${month.slice(0, 4)}`],
    [""],
  ];
  const heading = columns.map((column) => column.heading);
  return {
    name: fileName(palmgrove, `laporan ${month.slice(5)}-${month.slice(0, 4)}`, "txt"),
    text: delimited([...title, heading, ...rows, ...(at % 2 === 0 ? [total] : [])], "\t"),
    encoding: "utf-16",
    truth: truthOf(book, lines, "amount"),
  };
}

function asWorkbook(
  book: Book,
  lines: readonly Line[],
  by: string,
  off: readonly { day: string; why: string }[],
): Written {
  const weights = weightsOf(book, ".", "tidak ditimbang");
  const columns: Column[] = [
    { heading: "No kloter", says: ({ number }) => number },
    { heading: "Tgl pengeringan", says: ({ day }) => ({ day: day.day }) },
    { heading: "Maggot basah (g)", says: (line) => typed(weights.fresh(line)) },
    { heading: "Maggot kering (g)", says: (line) => typed(weights.dried(line)) },
    { heading: "Durasi (menit)", says: ({ minutes }) => minutes },
    { heading: "Elpiji kg", says: ({ day, first }) => (first ? Number(fuelShown(book, day.fuelSteps, ".")) : null) },
    { heading: "Oleh", says: () => by },
    { heading: "Catatan", says: ({ newSand }) => (newSand ? "pasir baru" : null) },
  ];
  const rows = withDaysOff(
    lines,
    rowsOf(columns, lines),
    off.map(({ day, why }) => ({ day, row: [null, { day }, ...columns.slice(3).map(() => null), why] })),
  );
  return {
    name: fileName(palmgrove, `${fullMonth(book.month, "id")} ${book.month.slice(0, 4)}`, "xlsx"),
    sheets: [{ name: fullMonth(book.month, "id"), rows: [columns.map(({ heading }) => heading), ...rows] }],
    truth: truthOf(book, lines, "amount"),
  };
}
