import { z } from "zod";
import { asPerson } from "#db/asPerson";
import { knownOn } from "#db/queries/ledger";
import { publicationsOf } from "#db/queries/publications";
import { allSites } from "#db/queries/sites";
import { sha256 } from "#server/evidence/canonical";
import { figuresOf, type MonthFigures } from "#server/jobs/figures";
import { publish } from "#server/jobs/publish";
import { publishedSince, standingPublications } from "#server/jobs/publishedSince";
import { monthsBetween } from "#server/terms/days";
import { atSite, forPerson, momentOrRecord, month, router, wrong } from "./base";

const span = z.object({ from: month, to: month, asOf: momentOrRecord.optional() });
const MOST_MONTHS = 60;

export const figuresRouter = router({
  /** A site's figures month by month, as known on. */
  site: atSite("read-figures")
    .input(span)
    .query(({ ctx, input }) =>
      asPerson(ctx.corridor, async (tx) =>
        figuresOf(tx, ctx.site, ...inOrder(input), await knownOn(tx, input.asOf ?? null)),
      ),
    ),
  /** The same for every site that the person may see. */
  all: forPerson.input(span).query(({ ctx, input }) =>
    asPerson(ctx.corridor, async (tx) => {
      const known = await knownOn(tx, input.asOf ?? null);
      const all: MonthFigures[] = [];
      for (const site of await allSites(tx)) all.push(...(await figuresOf(tx, site, ...inOrder(input), known)));
      return all;
    }),
  ),
  publish: atSite("publish")
    .input(z.object({ month }))
    .mutation(({ ctx, input }) => publish(ctx.corridor, ctx.site, input.month)),
  /** What was published of a month, oldest first: edition, what was known, and the hash of the figures. */
  published: atSite("read-figures")
    .input(z.object({ month }))
    .query(({ ctx, input }) =>
      asPerson(ctx.corridor, async (tx) =>
        (await publicationsOf(tx, ctx.site.id, input.month, Number.MAX_SAFE_INTEGER)).map(
          ({ edition, knownSize, ledgerIndex, figures }) => ({
            edition,
            knownSize,
            ledgerIndex,
            digest: sha256(figures),
          }),
        ),
      ),
    ),
  /** What of a site's months was published and is known otherwise by now, figure by figure. */
  sincePublished: atSite("read-figures")
    .input(span)
    .query(({ ctx, input }) =>
      asPerson(ctx.corridor, async (tx) => {
        const [from, to] = inOrder(input);
        const known = await knownOn(tx, input.asOf ?? null);
        const { rows } = await standingPublications(tx, [ctx.site], { from, to }, known.ledgerSize, MOST_MONTHS);
        return publishedSince(tx, ctx.site, rows, known);
      }),
    ),
});

function inOrder({ from, to }: { from: string; to: string }): [string, string] {
  if (from > to) throw wrong(`The month ${from} is after ${to}.`);
  if (monthsBetween(from, to).length > MOST_MONTHS) throw wrong(`At most ${MOST_MONTHS} months at once.`);
  return [from, to];
}
