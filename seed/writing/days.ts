import type { DemoSite } from "../site";

export type Language = "en" | "fr" | "es" | "pt" | "sw" | "id";

/** Months as people write them in a date. */
const MONTHS: Readonly<Record<Language, string>> = {
  en: "Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec",
  fr: "janv févr mars avr mai juin juil août sept oct nov déc",
  es: "ene feb mar abr may jun jul ago sep oct nov dic",
  pt: "jan fev mar abr mai jun jul ago set out nov dez",
  sw: "Januari Februari Machi Aprili Mei Juni Julai Agosti Septemba Oktoba Novemba Desemba",
  id: "Jan Feb Mar Apr Mei Jun Jul Agu Sep Okt Nov Des",
};
const FULL: Readonly<Record<Language, string>> = {
  ...MONTHS,
  en: "January February March April May June July August September October November December",
  fr: "janvier février mars avril mai juin juillet août septembre octobre novembre décembre",
  es: "enero febrero marzo abril mayo junio julio agosto septiembre octubre noviembre diciembre",
  pt: "janeiro fevereiro março abril maio junho julho agosto setembro outubro novembro dezembro",
  id: "Januari Februari Maret April Mei Juni Juli Agustus September Oktober November Desember",
};

export function shortMonth(month: string, language: Language): string {
  return MONTHS[language].split(" ")[Number(month.slice(5, 7)) - 1] ?? "";
}

export function fullMonth(month: string, language: Language): string {
  return FULL[language].split(" ")[Number(month.slice(5, 7)) - 1] ?? "";
}

/** "2031-03-04" in the order day, month, year: dayFirst("2031-03-04", "/") is "04/03/2031". */
export function dayFirst(day: string, mark: string, years: 0 | 2 | 4 = 4): string {
  const [year = "", month = "", date = ""] = day.split("-");
  return [date, month, ...(years === 0 ? [] : [year.slice(4 - years)])].join(mark);
}

/** "4 Mar 2031" in a language's own words. */
export function dayInWords(day: string, language: Language, withYear = true): string {
  return [String(Number(day.slice(8))), shortMonth(day, language), ...(withYear ? [day.slice(0, 4)] : [])].join(" ");
}

/** "08:05" */
export function clock(minute: number, mark = ":"): string {
  const ofDay = minute % 1440;
  return `${String(Math.floor(ofDay / 60)).padStart(2, "0")}${mark}${String(ofDay % 60).padStart(2, "0")}`;
}

/** "3h05" */
export function hours(minutes: number): string {
  return `${Math.floor(minutes / 60)}h${String(minutes % 60).padStart(2, "0")}`;
}

/** A name for the month's file, in the way of its site. */
export function fileName(site: DemoSite, words: string, ending: string): string {
  return `${site.name} ${words}.${ending}`;
}
