import { z } from "zod";
import { asPerson } from "#db/asPerson";
import { knownOn } from "#db/queries/ledger";
import { allSites } from "#db/queries/sites";
import { firstQuestions } from "#server/drift/firstQuestions";
import { type SignalState, signalsOf, signalsStanding } from "#server/jobs/signals";
import { monthsBetween } from "#server/terms/days";
import type { Person } from "#server/terms/person";
import type { FirstQuestion } from "#server/terms/signal";
import { type Context, forPerson, moment, month, router, wrong } from "./base";

/** A signal with its site's code (null: what sites did together) and what to ask first about it. */
export interface SignalTold extends Omit<SignalState, "site"> {
  readonly site: string | null;
  readonly questions: readonly FirstQuestion[];
}

const MOST_MONTHS = 36;

export const signalsRouter = router({
  /** Signals raised in some months at the sites that the person may see, and what they were held to. */
  list: forPerson
    .input(z.object({ from: month, to: month, site: z.string().optional(), asOf: moment.optional() }))
    .query(async ({ ctx, input }) => {
      if (input.from > input.to) throw wrong(`The month ${input.from} is after ${input.to}.`);
      if (monthsBetween(input.from, input.to).length > MOST_MONTHS)
        throw wrong(`At most ${MOST_MONTHS} months at once.`);
      const { codes, size } = await seen(ctx.corridor, input.asOf);
      if (input.site !== undefined && ![...codes.values()].includes(input.site))
        throw wrong(`There is no site ${input.site}.`);
      const { signals, months } = await signalsOf(ctx.store, input.from, input.to, size);
      return {
        signals: told(signals, codes, ctx.person).filter(({ site }) => input.site === undefined || site === input.site),
        months,
      };
    }),
  /** Signals that stand at the end of a month, of each series the last one. */
  standing: forPerson.input(z.object({ month, asOf: moment.optional() })).query(async ({ ctx, input }) => {
    const { codes, size } = await seen(ctx.corridor, input.asOf);
    return told(await signalsStanding(ctx.store, input.month, size), codes, ctx.person);
  }),
});

/** The sites that the person may see, by their number, and the size of the ledger asked for. */
async function seen(corridor: { store: Context["store"]; person: string }, asOf: string | undefined) {
  return asPerson(corridor, async (tx) => ({
    codes: new Map((await allSites(tx)).map(({ id, code }) => [id, code])),
    size: (await knownOn(tx, asOf ?? null)).ledgerSize,
  }));
}

/** What sites did together is told to those who see the whole programme. */
function told(signals: readonly SignalState[], codes: ReadonlyMap<number, string>, person: Person): SignalTold[] {
  const whole = person.site === null ? null : undefined;
  return signals.flatMap(({ site, ...signal }) => {
    const code = site === null ? whole : codes.get(site);
    return code === undefined ? [] : [{ ...signal, site: code, questions: firstQuestions(signal.measure, signal) }];
  });
}
