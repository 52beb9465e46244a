import { z } from "zod";
import { asPerson } from "#db/asPerson";
import { may } from "#server/access/rules";
import { acceptedShown } from "#server/jobs/acceptedShown";
import { inboxOf } from "#server/jobs/inbox";
import { signalShown, streamShown } from "#server/jobs/signalPages";
import { signalsOf, signalsStanding } from "#server/jobs/signals";
import { tell, telling } from "#server/jobs/tellSignals";
import { waitingFor } from "#server/jobs/waiting";
import { watchNow } from "#server/jobs/watchNow";
import { monthRows } from "#server/jobs/watchRead";
import { METHODS } from "#server/terms/batch";
import { monthsBetween } from "#server/terms/days";
import { WATCHED } from "#server/terms/signal";
import type { SignalShown } from "#server/terms/signalTold";
import { answerInput, answering } from "./answering";
import { forPerson, month, overAll, router, unseen, wrong } from "./base";
import { keyIn, known, seen } from "./signalsSeen";

export type { SignalTold } from "#server/terms/signalTold";
export { answerInput } from "./answering";

const MOST_MONTHS = 36;
const span = z.object({ from: month, to: month });

export const signalsRouter = router({
  /** Signals raised in some months at the sites that the person may see, and what they were held to. */
  list: forPerson.input(span.extend({ site: z.string().optional(), ...known })).query(async ({ ctx, input }) => {
    inOrder(input);
    const { size, siteOf, behind } = await seen(ctx, input);
    const site = input.site === undefined ? null : siteOf(input.site);
    return asPerson(ctx.corridor, async (tx) => {
      const rows = await signalsOf(tx, input.from, input.to, site, size);
      return {
        signals: tell(rows, await telling(tx, rows, size), ctx.person),
        months: (await monthRows(tx, input.from, input.to, size)).map((row) => ({
          month: row.month,
          streams: row.streams,
          accepted: row.limits.expected,
          expectedFalse: row.expectedFalse,
        })),
        behind,
      };
    });
  }),
  /** Signals that stand at the end of a month, of each series the last one; `behind`: something that came is not watched yet. */
  standing: forPerson.input(z.object({ month, ...known })).query(async ({ ctx, input }) => {
    const { size, behind } = await seen(ctx, input);
    return asPerson(ctx.corridor, async (tx) => {
      const rows = await signalsStanding(tx, input.month, size);
      return { signals: tell(rows, await telling(tx, rows, size), ctx.person), behind };
    });
  }),
  /** Signals that wait for an answer, as stories, the costliest first; and the latest of those done with. */
  inbox: forPerson.input(z.object(known)).query(async ({ ctx, input }) => {
    const { size, behind } = await seen(ctx, input);
    return asPerson(ctx.corridor, async (tx) => ({ ...(await inboxOf(tx, size, ctx.person)), behind }));
  }),
  /** How many stories wait, for the frame of every page. */
  waiting: forPerson.query(({ ctx }) => asPerson(ctx.corridor, (tx) => waitingFor(ctx.store, tx, ctx.person))),
  /** One signal with its revisions and answers, the days behind it, and what to ask first. */
  one: forPerson
    .input(z.object({ id: z.string(), ...known }))
    .query(async ({ ctx, input }): Promise<SignalShown & { readonly behind: boolean }> => {
      const { siteOf, behind, ...at } = await seen(ctx, input);
      const key = keyIn(input.id, siteOf, ctx.person);
      const shown = await signalShown(ctx.corridor, ctx.person, key, at);
      if (shown === null) throw unseen("There is no such signal.");
      return { ...shown, behind, mayAnswer: (ctx.rule ?? may)(ctx.person, "answer-signal", null) === "yes" };
    }),
  /** A series over some months: its days, what they are held to, and how soon a change would be found. */
  stream: forPerson
    .input(span.extend({ site: z.string().nullable(), method: z.enum(METHODS), measure: z.enum(WATCHED), ...known }))
    .query(async ({ ctx, input: { method, measure, ...input } }) => {
      inOrder(input);
      const { siteOf, behind, ...at } = await seen(ctx, input);
      if (input.site === null && ctx.person.site !== null) throw unseen("There is no such series.");
      const name = { site: input.site === null ? null : siteOf(input.site), method, measure };
      return {
        ...(await streamShown(ctx.corridor, ctx.person, { name, from: input.from, to: input.to, ...at })),
        behind,
      };
    }),
  /** What follows from the false alarms accepted: for those who see the whole programme. */
  accepted: overAll("see-accepted")
    .input(z.object(known))
    .query(async ({ ctx, input }) => {
      const { size, now, behind } = await seen(ctx, input);
      return asPerson(ctx.corridor, async (tx) => ({ ...(await acceptedShown(tx, size, now)), behind }));
    }),
  /** Says what was found out about a signal. Answers the record's index. */
  answer: overAll("answer-signal")
    .input(answerInput)
    .mutation(({ ctx, input }) => answering(ctx, input)),
  /** Records what the logs that have come tell. Asking for now does so too; this is for those who only want it recorded. */
  watch: overAll("watch").mutation(({ ctx }) => watchNow(ctx.store)),
});

function inOrder({ from, to }: { readonly from: string; readonly to: string }): void {
  if (from > to) throw wrong(`The month ${from} is after ${to}.`);
  if (monthsBetween(from, to).length > MOST_MONTHS) throw wrong(`At most ${MOST_MONTHS} months at once.`);
}
