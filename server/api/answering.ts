import { z } from "zod";
import { answerSignal } from "#server/jobs/answerSignal";
import type { Corridor } from "#server/jobs/record";
import { isDay } from "#server/terms/days";
import type { Person } from "#server/terms/person";
import { ANSWER_KINDS } from "#server/terms/signalTold";
import { day, unseen, wrong } from "./base";
import { keyIn, seen } from "./signalsSeen";

const aDay = day.refine(isDay, "must be a day of the calendar");

/** What a person says about a signal; days only where the kind needs them. */
export const answerInput = z.object({
  id: z.string(),
  kind: z.enum(ANSWER_KINDS),
  /** of a real change the first day of the new level, else the estimated one; of a passing cause its first day */
  from: aDay.optional(),
  /** of a passing cause its last day */
  to: aDay.optional(),
  /** days whose records are wrong */
  days: z.array(aDay).max(400).optional(),
  reason: z.string().trim().min(1, "must say why").max(2000, "must be at most 2000 characters"),
  /** other signals of the same story that the answer holds for */
  also: z.array(z.string()).max(20).optional(),
});
type Input = z.infer<typeof answerInput>;

/**
 * Records an answer. What follows from it for the signals is worked out afterwards, by whoever asks for them next or as
 * the server watches along: nobody waits for that who only answers.
 */
export async function answering(
  ctx: { readonly corridor: Corridor; readonly person: Person },
  input: Input,
): Promise<{ readonly ledgerIndex: number }> {
  const { siteOf } = await seen(ctx, { wait: "not" });
  const keys = [input.id, ...(input.also ?? [])].map((id) => keyIn(id, siteOf, ctx.person));
  if (keys.some(({ site }) => site !== keys[0]?.site)) throw wrong("An answer holds for signals of one site.");
  const ledgerIndex = await answerSignal(ctx.corridor, {
    keys,
    kind: input.kind,
    reason: input.reason,
    ...daysOf(input),
  });
  if (ledgerIndex === null) throw unseen("There is no such signal.");
  return { ledgerIndex };
}

/** The days that a kind of answer needs, and no others. */
function daysOf({ kind, from, to, days = [] }: Input) {
  const none = { from: null, to: null, days: [] };
  if (kind === "real-change") return { ...none, from: from ?? null };
  if (kind === "no-cause-found") return none;
  if (kind === "data-error") {
    if (days.length === 0) throw wrong("Say on which days the records are wrong.");
    return { ...none, days: [...new Set(days)].sort() };
  }
  if (from === undefined || to === undefined) throw wrong("Say from which day to which day the cause lasted.");
  if (from > to) throw wrong(`The day ${from} is after ${to}.`);
  return { ...none, from, to };
}
