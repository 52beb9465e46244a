import type { SignalStanding, SignalTold } from "#server/terms/signalTold";
import { dayInWords } from "./days";
import { answerInWords, whoInWords } from "./signalAnswers";

const SMALL = ["No", "One", "Two", "Three", "Four", "Five", "Six", "Seven", "Eight", "Nine", "Ten", "Eleven", "Twelve"];

/** "Three sites changed and wait for an answer": what the inbox says first. */
export function inboxInWords(stories: number, together: number): string {
  if (stories === 0) return together === 0 ? "No signal waits" : "What all did together waits, and nothing else";
  const count = SMALL[stories] ?? stories.toLocaleString("en-GB");
  return `${count} ${stories === 1 ? "change waits" : "changes wait"} for an answer`;
}

/** Said under the headline, so that nobody has to guess why one stands above another. */
export const INBOX_ORDER =
  "Ordered by what each comes to over 30 days, in kg dried: what a measure would bring if it had stayed as it was.";

/** Beside the count of changes, since a month's comparison counts others. */
export const WAITS_NOW =
  "These wait now, whichever month they began in; the comparison of a month says which sites had changed by its end.";

export const WAITS_FOR = "Write down what was found out about it, even where it is nothing.";

/** Said right after an answer, which nobody waits for to be worked out. */
export const FOLLOWS =
  "Your answer is recorded. What follows from it for other days and signals is being worked out; it stands here in a moment.";

/** What became of a signal, whether it was answered or not. */
export const STANDING_WORDS: Record<SignalStanding, string> = {
  stands: "It stands.",
  back: "The level has gone back since.",
  turned: "A later change went the other way.",
  ended: "An answer or a declared change ended it.",
  unanswered: "Nobody answered in three months. By now its days are what new ones are compared with.",
  unsupported: "No longer supported by the records as they stand now.",
};

/** The answer where there is one, with who gave it and when; else what became of the signal by itself. */
export function becameInWords({ answer, state }: Pick<SignalTold, "answer" | "state">): string {
  const unsupported = state === "unsupported" ? ` ${STANDING_WORDS.unsupported}` : "";
  if (answer === null) return STANDING_WORDS[state];
  const who = whoInWords(answer);
  const said = [...(answer.at === null ? [] : [dayInWords(answer.at.slice(0, 10))]), ...(who === null ? [] : [who])];
  return `${answerInWords(answer)}${said.length === 0 ? "" : ` (${said.join(", ")})`}.${unsupported}`;
}
