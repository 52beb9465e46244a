import type { LikeBefore } from "#server/terms/look";
import type { Remembered } from "#server/terms/row";
import { listInWords, monthInWords } from "./days";
import { unitInWords } from "./meanings";

/** The earlier log, as a reader would call it. */
export function earlierLog({ month }: { readonly month: string | null }): string {
  return month === null ? "an earlier log" : `your log of ${monthInWords(month)}`;
}

/** That a log has the columns of an earlier one, and in sentences what is different. */
export function layoutInWords(like: LikeBefore | null, earlier: number): string[] {
  if (like === null)
    return earlier === 0 ? [] : ["None of the last logs of this site has these columns, so look at each of them."];
  const { missing, added, renamed, units, dayOrder, moved } = like.change;
  const quoted = (headings: readonly string[]) => listInWords(headings.map((heading) => `“${heading}”`));
  const changes = [
    ...(missing.length === 0 ? [] : [`${quoted(missing)} ${missing.length === 1 ? "is" : "are"} missing.`]),
    ...(added.length === 0 ? [] : [`${quoted(added)} ${added.length === 1 ? "is" : "are"} new.`]),
    ...renamed.map(({ from, to }) => `“${from}” is now called “${to}”.`),
    ...units.map(
      ({ heading, from, to }) => `“${heading}” was in ${unitInWords(from)} and is now in ${unitInWords(to)}.`,
    ),
    ...(dayOrder === null ? [] : [`Dates were written ${ORDERS[dayOrder.from]} and are now ${ORDERS[dayOrder.to]}.`]),
    ...(moved ? ["The columns stand in another order; they were recognised by their headings."] : []),
  ];
  const log = earlierLog(like);
  return changes.length === 0
    ? [`It has the same columns as ${log}.`]
    : [`It has the columns of ${log}, with changes:`, ...changes];
}

const ORDERS: Readonly<Record<string, string>> = {
  dmy: "day, month, year",
  mdy: "month, day, year",
  ymd: "year, month, day",
};

/** That something is taken over and not asked again. */
export function rememberedInWords(remembered: Remembered): string {
  return `as in ${earlierLog(remembered)}`;
}
