import { asPerson } from "#db/asPerson";
import { ledgerHead } from "#db/queries/ledger";
import { rootOf } from "#server/evidence/merkle";
import { verify } from "#server/jobs/verify";
import { forPerson, overAll, router } from "./base";

export const ledgerRouter = router({
  /** The size, time and root of the ledger: what to write down, to see later that nothing before it was changed. */
  head: forPerson.query(({ ctx }) =>
    asPerson(ctx.corridor, async (tx) => {
      const { size, at, peaks } = await ledgerHead(tx);
      return { size, at, root: rootOf(peaks) };
    }),
  ),
  verify: overAll("verify").query(({ ctx }) => verify(ctx.corridor, ctx.bounds)),
});
