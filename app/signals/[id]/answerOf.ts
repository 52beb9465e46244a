import { daysBetween, isDay } from "#server/terms/days";
import { ANSWER_KINDS, type AnswerKind } from "#server/terms/signalTold";

/** So that a note can hold what was typed when something else is wrong with it. */
export const LONGEST_REASON = 1200;
const MOST_DAYS = 400;
const ALSO = "also ";

/** What the box of a series of the same story is called in the form; its value names the signals, with spaces between. */
export function alsoName(series: string): string {
  return `${ALSO}${series}`;
}

export interface Answering {
  readonly kind: AnswerKind;
  readonly from?: string;
  readonly to?: string;
  readonly days?: string[];
  readonly reason: string;
  readonly also?: string[];
}

type Typed = Readonly<Record<string, string>>;

/** What a posted form answers, with just the days that its kind needs; or what is wrong with it, by field. */
export function answerOf(typed: Typed): Answering | { readonly wrong: Record<string, string> } {
  const { from = "", to = "" } = typed;
  const kind = ANSWER_KINDS.find((one) => one === typed.kind);
  const reason = (typed.reason ?? "").trim();
  const days = daysTyped(typed.days ?? "");
  const wrong: Record<string, string> = {};
  if (kind === undefined) wrong.kind = "Choose one of the four answers.";
  if ((kind === "real-change" || kind === "temporary-cause") && !isDay(from))
    wrong.from = "Write the first day, such as 2031-03-31.";
  if (kind === "temporary-cause" && !isDay(to)) wrong.to = "Write the last day, such as 2031-03-31.";
  if (kind === "temporary-cause" && isDay(from) && isDay(to) && to < from)
    wrong.to = `The last day, ${to}, is before the first, ${from}.`;
  if (kind === "data-error" && typeof days === "string") wrong.days = days;
  if (reason === "") wrong.reason = "Write why: what was seen, asked and found.";
  if (reason.length > LONGEST_REASON)
    wrong.reason = `Write it in ${LONGEST_REASON} letters or fewer; it has ${reason.length}.`;
  if (kind === undefined || Object.keys(wrong).length > 0) return { wrong };
  const also = Object.entries(typed).flatMap(([name, ids]) => (name.startsWith(ALSO) ? ids.split(" ") : []));
  return {
    kind,
    reason,
    ...(kind === "real-change" || kind === "temporary-cause" ? { from } : {}),
    ...(kind === "temporary-cause" ? { to } : {}),
    ...(kind === "data-error" && typeof days !== "string" ? { days } : {}),
    ...(also.length === 0 ? {} : { also }),
  };
}

/** Days and spans of days as somebody types them, in order and once each; or the sentence that says what is wrong. */
export function daysTyped(text: string): string[] | string {
  const words = text.replaceAll(/[,;\s]+/g, " ").trim();
  if (words === "") return "Write the days whose record is wrong.";
  const days = new Set<string>();
  let rest = words;
  while (rest !== "") {
    const [piece = "", from = "", to = from] = /^(\S+)(?: (?:to|until|-|–) (\S+))? ?/.exec(rest) ?? [];
    const strange = [from, to].find((day) => !isDay(day));
    if (piece === "" || strange !== undefined) return `“${strange ?? rest}” is no day; write it as 2031-03-31.`;
    if (to < from) return `${from} to ${to} ends before it begins.`;
    for (const day of daysBetween(from, to)) days.add(day);
    rest = rest.slice(piece.length);
  }
  if (days.size > MOST_DAYS) return `These are ${days.size} days; ${MOST_DAYS} at the most can be named at once.`;
  return [...days].sort();
}
