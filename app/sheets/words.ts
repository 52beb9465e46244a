import { LANGUAGES } from "#server/terms/headings/index";
import type { Meaning } from "#server/terms/row";

export type SheetLanguage = (typeof LANGUAGES)[number]["language"];
export type SheetKind = "daily" | "load";

/** What a sheet asks for, in the order of the work. */
export const DAILY = [
  "day",
  "batch-number",
  "pan",
  "fresh",
  "dried",
  "minutes",
  "fuel-type",
  "fuel-amount",
  "operator",
  "remarks",
] as const satisfies readonly Meaning[];
export const LOAD = [
  "day",
  "batch-number",
  "pan",
  "fresh",
  "start",
  "end",
  "minutes",
  "fuel-type",
  "fuel-amount",
  "crush-test",
  "dried",
  "dried-day",
  "operator",
  "remarks",
] as const satisfies readonly Meaning[];
type Asked = (typeof DAILY)[number] | (typeof LOAD)[number];

interface SheetWords {
  /** the language's own name */
  readonly name: string;
  readonly titles: Readonly<Record<SheetKind, string>>;
  readonly site: string;
  readonly month: string;
  readonly howTo: Readonly<Record<SheetKind, string>>;
  /** each stands in the heading lists of its language, so that a filled sheet is read back */
  readonly headings: Readonly<Record<Asked, string>>;
}

/** The words of the blank sheets, in every language whose logs can be read. */
export const SHEET_WORDS: Readonly<Record<SheetLanguage, SheetWords>> = {
  en: {
    name: "English",
    titles: { daily: "Daily sheet", load: "Load sheet" },
    site: "Site",
    month: "Month",
    howTo: {
      daily: "One line a load. Leave empty what was not weighed; 0 means that nothing came out.",
      load: "One column a load. Leave empty what was not weighed; 0 means that nothing came out.",
    },
    headings: {
      day: "Date",
      "batch-number": "Batch no",
      pan: "Pan",
      fresh: "Fresh larvae (kg)",
      dried: "Dried larvae (kg)",
      "dried-day": "Weighed on",
      start: "Start time",
      end: "End time",
      minutes: "Minutes",
      "fuel-type": "Fuel",
      "fuel-amount": "Fuel used (kg)",
      "crush-test": "Crush test",
      operator: "Initials",
      remarks: "Remarks",
    },
  },
  fr: {
    name: "Français",
    titles: { daily: "Feuille journalière", load: "Feuille par fournée" },
    site: "Site",
    month: "Mois",
    howTo: {
      daily: "Une ligne par fournée. Laisser vide ce qui n’a pas été pesé ; 0 veut dire que rien n’est sorti.",
      load: "Une colonne par fournée. Laisser vide ce qui n’a pas été pesé ; 0 veut dire que rien n’est sorti.",
    },
    headings: {
      day: "Date",
      "batch-number": "N° de fournée",
      pan: "Poêle",
      fresh: "Larves fraîches (kg)",
      dried: "Larves séchées (kg)",
      "dried-day": "Pesé le",
      start: "Heure début",
      end: "Heure fin",
      minutes: "Minutes",
      "fuel-type": "Combustible",
      "fuel-amount": "Combustible utilisé (kg)",
      "crush-test": "Test d’écrasement",
      operator: "Visa",
      remarks: "Remarques",
    },
  },
  es: {
    name: "Español",
    titles: { daily: "Hoja diaria", load: "Hoja por tanda" },
    site: "Sitio",
    month: "Mes",
    howTo: {
      daily: "Una línea por tanda. Deje vacío lo que no se pesó; 0 quiere decir que no salió nada.",
      load: "Una columna por tanda. Deje vacío lo que no se pesó; 0 quiere decir que no salió nada.",
    },
    headings: {
      day: "Fecha",
      "batch-number": "N° de tanda",
      pan: "Sartén",
      fresh: "Larvas frescas (kg)",
      dried: "Larvas secas (kg)",
      "dried-day": "Pesado el",
      start: "Hora inicio",
      end: "Hora fin",
      minutes: "Minutos",
      "fuel-type": "Combustible",
      "fuel-amount": "Combustible usado (kg)",
      "crush-test": "Prueba de aplastado",
      operator: "Firma",
      remarks: "Observaciones",
    },
  },
  pt: {
    name: "Português",
    titles: { daily: "Folha diária", load: "Folha por fornada" },
    site: "Local",
    month: "Mês",
    howTo: {
      daily: "Uma linha por fornada. Deixe vazio o que não foi pesado; 0 quer dizer que nada saiu.",
      load: "Uma coluna por fornada. Deixe vazio o que não foi pesado; 0 quer dizer que nada saiu.",
    },
    headings: {
      day: "Data",
      "batch-number": "Nº da fornada",
      pan: "Tacho",
      fresh: "Larvas frescas (kg)",
      dried: "Larvas secas (kg)",
      "dried-day": "Pesado em",
      start: "Hora início",
      end: "Hora fim",
      minutes: "Minutos",
      "fuel-type": "Combustível",
      "fuel-amount": "Combustível usado (kg)",
      "crush-test": "Teste de esmagamento",
      operator: "Assinatura",
      remarks: "Observações",
    },
  },
  sw: {
    name: "Kiswahili",
    titles: { daily: "Karatasi ya kila siku", load: "Karatasi ya kila bechi" },
    site: "Kituo",
    month: "Mwezi",
    howTo: {
      daily: "Mstari mmoja kwa kila bechi. Acha wazi kisichopimwa; 0 maana yake hakuna kilichotoka.",
      load: "Safu moja kwa kila bechi. Acha wazi kisichopimwa; 0 maana yake hakuna kilichotoka.",
    },
    headings: {
      day: "Tarehe",
      "batch-number": "Namba ya bechi",
      pan: "Sufuria",
      fresh: "Mabuu mabichi (kg)",
      dried: "Mabuu makavu (kg)",
      "dried-day": "Siku ya kupima",
      start: "Saa ya kuanza",
      end: "Saa ya kumaliza",
      minutes: "Dakika",
      "fuel-type": "Nishati",
      "fuel-amount": "Nishati iliyotumika (kg)",
      "crush-test": "Jaribio la kuponda",
      operator: "Sahihi",
      remarks: "Maoni",
    },
  },
  id: {
    name: "Bahasa Indonesia",
    titles: { daily: "Lembar harian", load: "Lembar per batch" },
    site: "Lokasi",
    month: "Bulan",
    howTo: {
      daily: "Satu baris untuk satu batch. Kosongkan yang tidak ditimbang; 0 berarti tidak ada yang keluar.",
      load: "Satu kolom untuk satu batch. Kosongkan yang tidak ditimbang; 0 berarti tidak ada yang keluar.",
    },
    headings: {
      day: "Tanggal",
      "batch-number": "No batch",
      pan: "Wajan",
      fresh: "Larva segar (kg)",
      dried: "Larva kering (kg)",
      "dried-day": "Tanggal timbang",
      start: "Jam mulai",
      end: "Jam selesai",
      minutes: "Menit",
      "fuel-type": "Bahan bakar",
      "fuel-amount": "Bahan bakar terpakai (kg)",
      "crush-test": "Uji remas",
      operator: "Paraf",
      remarks: "Keterangan",
    },
  },
};

export function sheetLanguage(said: string): SheetLanguage | null {
  return LANGUAGES.find(({ language }) => language === said)?.language ?? null;
}

/** The headings that a sheet prints, in their order. */
export function sheetHeadings(language: SheetLanguage, kind: SheetKind): { meaning: Asked; heading: string }[] {
  const asked: readonly Asked[] = kind === "daily" ? DAILY : LOAD;
  return asked.map((meaning) => ({ meaning, heading: SHEET_WORDS[language].headings[meaning] }));
}
