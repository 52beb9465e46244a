import { z } from "zod";
import { asPerson } from "#db/asPerson";
import { knownOn } from "#db/queries/ledger";
import { readMonth } from "#server/jobs/compareMonth";
import { comparisonOf } from "#server/jobs/comparison";
import { forPerson, moment, month, router } from "./base";

export const compareRouter = router({
  /** A month of all sites that the person may see, side by side, as known on. A site lead sees the own site alone. */
  month: forPerson.input(z.object({ month, asOf: moment.optional() })).query(({ ctx, input }) =>
    asPerson(ctx.corridor, async (tx) => {
      const known = await knownOn(tx, input.asOf ?? null);
      return comparisonOf(input.month, await readMonth(tx, input.month, known), known);
    }),
  ),
});
