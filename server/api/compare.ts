import { z } from "zod";
import { asPerson } from "#db/asPerson";
import { knownOn } from "#db/queries/ledger";
import { readMonth } from "#server/jobs/compareMonth";
import { comparisonOf, twoOf } from "#server/jobs/comparison";
import { forPerson, moment, month, router } from "./base";

const asked = z.object({ month, asOf: moment.optional() });

export const compareRouter = router({
  /** A month of all sites that the person may see, side by side, as known on. A site lead sees the own site alone. */
  month: forPerson.input(asked).query(({ ctx, input }) =>
    asPerson(ctx.corridor, async (tx) => {
      const known = await knownOn(tx, input.asOf ?? null);
      return comparisonOf(input.month, await readMonth(tx, input.month, known), known);
    }),
  ),
  /** What may be said about two of them, measure by measure; null where one is not seen or not there. */
  two: forPerson.input(asked.extend({ first: z.string(), second: z.string() })).query(({ ctx, input }) =>
    asPerson(ctx.corridor, async (tx) => {
      const read = await readMonth(tx, input.month, await knownOn(tx, input.asOf ?? null));
      return twoOf(input.month, read, input.first, input.second);
    }),
  ),
});
