import { z } from "zod";
import { asPerson } from "#db/asPerson";
import { knownOn } from "#db/queries/ledger";
import { allSites } from "#db/queries/sites";
import { firstQuestions } from "#server/drift/firstQuestions";
import { storiesOf } from "#server/drift/stories";
import { type SignalState, signalsOf, signalsStanding } from "#server/jobs/signals";
import { monthsBetween, plusMonths } from "#server/terms/days";
import type { Person } from "#server/terms/person";
import type { Inbox, SignalTold, StoryTold } from "#server/terms/signalTold";
import { ANSWER_KINDS } from "#server/terms/signalTold";
import { type Context, day, forPerson, moment, month, router, wrong } from "./base";

export type { SignalTold } from "#server/terms/signalTold";

const MOST_MONTHS = 36;
const known = { asOf: moment.optional() };

/** What a person says about a signal; days only where the kind needs them. */
export const answerInput = z.object({
  id: z.string(),
  kind: z.enum(ANSWER_KINDS),
  from: day.optional(),
  to: day.optional(),
  days: z.array(day).max(400).optional(),
  reason: z.string().trim().min(1, "say why").max(2000),
  /** other signals of the same story that the answer holds for */
  also: z.array(z.string()).max(20).optional(),
});

export const signalsRouter = router({
  /** Signals raised in some months at the sites that the person may see, and what they were held to. */
  list: forPerson
    .input(z.object({ from: month, to: month, site: z.string().optional(), ...known }))
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
  standing: forPerson.input(z.object({ month, ...known })).query(async ({ ctx, input }) => {
    const { codes, size } = await seen(ctx.corridor, input.asOf);
    return told(await signalsStanding(ctx.store, input.month, size), codes, ctx.person);
  }),
  /** Signals that wait for an answer, as stories, the costliest first. */
  inbox: forPerson.input(z.object(known)).query(async ({ ctx, input }): Promise<Inbox> => {
    const { codes, size } = await seen(ctx.corridor, input.asOf);
    const to = ctx.clock().toISOString().slice(0, 7);
    const signals = told((await signalsOf(ctx.store, plusMonths(to, -11), to, size)).signals, codes, ctx.person);
    const stories = [...new Set(signals.map(({ site }) => site))].flatMap((site): StoryTold[] =>
      storiesOf(signals.filter((one) => one.site === site).map((one) => ({ ...one, site: null }))).map((story) => {
        const own = story.signals.flatMap((one) => signals.find((other) => "id" in one && other.id === one.id) ?? []);
        return {
          site,
          name: site,
          signals: own,
          firstRaisedOn: story.firstRaisedOn,
          partOf: null,
          driedKg: Math.max(...own.map(({ cost }) => cost.driedKg ?? 0)),
        };
      }),
    );
    const stands = (story: StoryTold) => story.signals.some(({ state }) => state === "stands");
    return {
      open: stories.filter(stands).sort((a, b) => (b.driedKg ?? 0) - (a.driedKg ?? 0)),
      answered: stories.filter((story) => !stands(story)),
      watchedTo: to,
    };
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
    if (code === undefined) return [];
    const id = [code ?? "_", signal.method, signal.measure, signal.raisedOn, signal.direction].join(".");
    const unit = signal.measure === "dry-yield" ? "kg-dried" : signal.measure === "throughput" ? "kg-fresh" : "mj";
    const cost = { per30Days: signal.per30Days, unit, driedKg: Math.abs(signal.per30Days) } as const;
    return [
      {
        ...signal,
        id,
        site: code,
        answer: null,
        cost,
        coincides: [],
        questions: firstQuestions(signal.measure, signal),
      },
    ];
  });
}
