import { z } from "zod";
import { asPerson } from "#db/asPerson";
import { knownOn } from "#db/queries/ledger";
import { factsOf } from "#db/queries/sites";
import { siteDay } from "#server/jobs/siteDay";
import { siteOverTime } from "#server/jobs/siteOverTime";
import { monthsBetween } from "#server/terms/days";
import { atSite, moment, month, router, wrong } from "./base";

const MOST_MONTHS = 60;

export const siteRouter = router({
  /** What a site did over some months: figures in steps, events, days, sand and tests. */
  overTime: atSite("read-figures")
    .input(z.object({ from: month, to: month, asOf: moment.optional() }))
    .query(({ ctx, input: { from, to, asOf } }) => {
      if (from > to) throw wrong(`The month ${from} is after ${to}.`);
      if (monthsBetween(from, to).length > MOST_MONTHS) throw wrong(`At most ${MOST_MONTHS} months at once.`);
      return asPerson(ctx.corridor, async (tx) => {
        const known = await knownOn(tx, asOf ?? null);
        const today = siteDay(ctx.clock(), await factsOf(tx, [ctx.site.id], known.ledgerSize), ctx.site.id);
        const last = [today, asOf?.slice(0, 10) ?? today].sort()[0] ?? today; // nothing was missing yet that lay ahead then
        return siteOverTime(tx, ctx.site, { from, to }, last, known);
      });
    }),
});
