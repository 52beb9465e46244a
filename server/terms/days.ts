/**
 * Days are "YYYY-MM-DD", months "YYYY-MM", in the calendar of the site. No clock and no time zone comes in here.
 */

const DAY = /^(\d{4})-(\d{2})-(\d{2})$/;

/**
 * Days since 1970-01-01, for distances; throws when `day` is not a day of the calendar.
 *
 * Counted from 1 March of year 0, so that the leap day is the last of its year: a month's first day is then linear in
 * the month, and a year's in the year and its leap days.
 */
export function dayNumber(day: string): number {
  if (!DAY.test(day)) throw new Error(`${day} is not a day`);
  const [year, month, date] = [Number(day.slice(0, 4)), Number(day.slice(5, 7)), Number(day.slice(8))];
  if (month < 1 || month > 12 || date < 1 || date > lengthOf(year, month))
    throw new Error(`${day} is not in the calendar`);
  const [fromMarch, ofYear] = month > 2 ? [month - 3, year] : [month + 9, year - 1];
  const leapDays = Math.floor(ofYear / 4) - Math.floor(ofYear / 100) + Math.floor(ofYear / 400);
  return ofYear * 365 + leapDays + Math.floor((153 * fromMarch + 2) / 5) + date - 719_469;
}

function lengthOf(year: number, month: number): number {
  if (month === 2) return year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0) ? 29 : 28;
  return month === 4 || month === 6 || month === 9 || month === 11 ? 30 : 31;
}

/** True for a day of the calendar: "2031-02-28" yes, "2031-02-30" no. */
export function isDay(text: string): boolean {
  const found = DAY.exec(text);
  if (!found) return false;
  const date = new Date(Date.UTC(Number(found[1]), Number(found[2]) - 1, Number(found[3])));
  return date.getUTCMonth() === Number(found[2]) - 1 && date.getUTCDate() === Number(found[3]);
}

/** The day so many days after 1970-01-01. */
export function dayOf(number: number): string {
  return new Date(number * 86_400_000).toISOString().slice(0, 10);
}

/** "2031-03-31" plus 1 is "2031-04-01". */
export function plusDays(day: string, days: number): string {
  return dayOf(dayNumber(day) + days);
}

export function monthOf(day: string): string {
  return day.slice(0, 7);
}

/** First and last day of a month, both in it. */
export function daysOfMonth(month: string): { readonly from: string; readonly to: string } {
  const [year, number] = month.split("-").map(Number) as [number, number];
  const last = new Date(Date.UTC(year, number, 0)).getUTCDate();
  return { from: `${month}-01`, to: `${month}-${String(last).padStart(2, "0")}` };
}

/** "2031-12" plus 1 is "2032-01". */
export function plusMonths(month: string, months: number): string {
  const [year, number] = month.split("-").map(Number) as [number, number];
  const count = year * 12 + number - 1 + months;
  return `${String(Math.floor(count / 12)).padStart(4, "0")}-${String((count % 12) + 1).padStart(2, "0")}`;
}

/** Every month from `from` to `to`, both in. */
export function monthsBetween(from: string, to: string): string[] {
  const months: string[] = [];
  for (let month = from; month <= to; month = plusMonths(month, 1)) months.push(month);
  return months;
}

/** Every day from `from` to `to`, both in. */
export function daysBetween(from: string, to: string): string[] {
  const last = dayNumber(to);
  const days: string[] = [];
  let day = from;
  for (let number = dayNumber(from); number <= last; number++) {
    days.push(day);
    day = dayAfter(day, number);
  }
  return days;
}

/** Within a month only the date moves on; asking the calendar each time would cost more than all that is done with a day. */
function dayAfter(day: string, number: number): string {
  const date = Number(day.slice(8)) + 1;
  return date > 28 ? dayOf(number + 1) : `${day.slice(0, 8)}${date < 10 ? "0" : ""}${date}`;
}

/** Day of the week, Monday 1 to Sunday 7 (ISO 8601). */
export function weekday(day: string): number {
  return ((dayNumber(day) + 3) % 7) + 1;
}
