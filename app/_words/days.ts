const MONTHS = [
  "January",
  "February",
  "March",
  "April",
  "May",
  "June",
  "July",
  "August",
  "September",
  "October",
  "November",
  "December",
] as const;

/** "2031-03" is "March 2031". */
export function monthInWords(month: string): string {
  return `${monthName(month.slice(5, 7))} ${month.slice(0, 4)}`;
}

/** "03" is "March". */
export function monthName(number: string): string {
  const name = MONTHS[Number(number) - 1];
  if (name === undefined) throw new Error(`${number} is no month; addresses and logs are checked before`);
  return name;
}

/** "2031-03-31" is "31 Mar 2031": the month as a word, so that nobody takes it for the day. */
export function dayInWords(day: string): string {
  return `${Number(day.slice(8, 10))} ${monthName(day.slice(5, 7)).slice(0, 3)} ${day.slice(0, 4)}`;
}

/** "3 to 17 Mar 2031"; one day where both are the same. */
export function spanInWords(from: string, to: string | null): string {
  if (to === null) return `from ${dayInWords(from)}`;
  if (from === to) return dayInWords(from);
  const sameMonth = from.slice(0, 7) === to.slice(0, 7);
  return `${sameMonth ? Number(from.slice(8, 10)) : dayInWords(from)} to ${dayInWords(to)}`;
}

/** An instant, in UTC: "31 Mar 2031, 14:05 UTC". */
export function momentInWords(instant: string): string {
  return `${dayInWords(instant.slice(0, 10))}, ${instant.slice(11, 16)} UTC`;
}

/** "2 Mar, 3 Mar and 5 Mar 2031"; of many only the first, with how many more. */
export function daysInWords(days: readonly string[], most = 6): string {
  const shown = days.slice(0, most).map(dayInWords);
  const more = days.length - shown.length;
  return listInWords(more > 0 ? [...shown, `${more} more`] : shown);
}

/** "a", "a and b", "a, b and c". */
export function listInWords(words: readonly string[]): string {
  if (words.length < 2) return words.join("");
  return `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;
}

/** "1 row", "3 rows", "1,204 rows". */
export function counted(count: number, one: string, many = `${one}s`): string {
  return `${count.toLocaleString("en-GB")} ${count === 1 ? one : many}`;
}
