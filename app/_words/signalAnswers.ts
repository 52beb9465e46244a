import type { AnswerKind, SignalAnswer } from "#server/terms/signalTold";
import { dayInWords, daysInWords, spanInWords } from "./days";
import { ROLE_WORDS } from "./methods";

/** What each answer is called, and what it will do to the days that later ones are compared with. */
export const ANSWER_WORDS: Record<AnswerKind, { readonly name: string; readonly does: string }> = {
  "real-change": {
    name: "A real change",
    does: "From the day named, days are compared with each other anew; the first twelve of them only teach. Earlier days keep their own reference. Nothing in the log changes.",
  },
  "data-error": {
    name: "The record is wrong",
    does: "The days named teach nothing and are compared with nothing any more. The log stays as it was sent; to mend the figures too, correct the log or take it back.",
  },
  "temporary-cause": {
    name: "A cause that passes",
    does: "The days named, first to last, are left out. Days after them are compared with the reference from before.",
  },
  "no-cause-found": {
    name: "No cause found",
    does: "The reference stays as it is. The signal counts as a false alarm, and is held against those we accept.",
  },
};

type Answered = Pick<SignalAnswer, "kind" | "from" | "to" | "days">;

/** "A real change from 3 Apr 2031". */
export function answerInWords({ kind, from, to, days }: Answered): string {
  const { name } = ANSWER_WORDS[kind];
  switch (kind) {
    case "real-change":
      return from === null ? name : `${name}, from ${dayInWords(from)}`;
    case "temporary-cause":
      return from === null ? name : `${name}, ${spanInWords(from, to)}`;
    case "data-error":
      return `${name}: ${daysInWords(days)}`;
    case "no-cause-found":
      return name;
  }
}

/** "Marisol Adeyemi, programme officer"; null where that name is not for the one who reads. */
export function whoInWords({ by, role }: Pick<SignalAnswer, "by" | "role">): string | null {
  if (by === null) return null;
  return role === null || by === role ? by : `${by}, ${ROLE_WORDS[role]}`;
}
