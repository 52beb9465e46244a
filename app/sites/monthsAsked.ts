import { isDay, monthsBetween, plusMonths } from "#server/terms/days";

type Asked = Readonly<Record<string, string | undefined>>;

const MONTH = /^\d{4}-(0[1-9]|1[0-2])$/;
const MOST = 60;

/** The month that an address asks for, as "2031-03" or as two choices; null where it asks for none. */
export function monthAsked({ month = "", year = "" }: Asked): string | null {
  if (MONTH.test(month)) return month;
  return MONTH.test(`${year}-${month}`) ? `${year}-${month}` : null;
}

/** The months that an address asks for; else the twelve up to the last full month. */
export function monthsAsked(
  { from = "", to = "" }: Asked,
  today: string,
): { readonly from: string; readonly to: string } {
  const last = MONTH.test(to) ? to : plusMonths(today.slice(0, 7), -1);
  const first = MONTH.test(from) && from <= last ? from : plusMonths(last, -11);
  return { from: monthsBetween(first, last).length > MOST ? plusMonths(last, 1 - MOST) : first, to: last };
}

/** The day of knowledge that an address asks for; undefined: today. */
export function knownAsked({ known = "" }: Asked): string | undefined {
  return isDay(known) ? known : undefined;
}

/** The same, or how many records were known: "record-92". Of one time there may be several records, of a number only one. */
export function knownThenAsked({ known = "" }: Asked): string | undefined {
  return /^record-\d{1,9}$/.test(known) ? known : knownAsked({ known });
}
