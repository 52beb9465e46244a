import { monthName } from "../../_words/days";

/** "2031-03" is "Mar 2031": a whole name would run into its neighbours on a phone. */
export function shortMonth(month: string): string {
  return `${monthName(month.slice(5)).slice(0, 3)} ${month.slice(0, 4)}`;
}
