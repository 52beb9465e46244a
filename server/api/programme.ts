import { z } from "zod";
import { asPerson } from "#db/asPerson";
import { knownOn } from "#db/queries/ledger";
import { factsOf } from "#db/queries/sites";
import { declare } from "#server/jobs/declare";
import { FACTS, type FactKind } from "#server/terms/facts";
import { day, forPerson, moment, overAll, router } from "./base";

/** What is declared of the programme itself and not of a site. */
const OF_PROGRAMME = ["false-alarms", "target"] as const satisfies readonly FactKind[];

const declaration = z
  .object({
    kind: z.enum(OF_PROGRAMME),
    key: z.string().max(80).optional(),
    from: day,
    to: day.nullable().optional(),
    value: z.unknown(),
  })
  .superRefine(({ kind, value, from, to }, said) => {
    if (to != null && to < from)
      said.addIssue({ code: "custom", message: `ends on ${to}, before it begins on ${from}` });
    if (value === null) return;
    for (const { path, message } of FACTS[kind].safeParse(value).error?.issues ?? [])
      said.addIssue({ code: "custom", message: `${kind}${path.length === 0 ? "" : ` ${path.join(".")}`}: ${message}` });
  });

export const programmeRouter = router({
  /** Everything declared about the programme, as known on. Its site is 0. */
  facts: forPerson.input(z.object({ asOf: moment.optional() })).query(({ ctx, input }) =>
    asPerson(ctx.corridor, async (tx) => {
      const { ledgerSize } = await knownOn(tx, input.asOf ?? null);
      return factsOf(tx, [], ledgerSize);
    }),
  ),
  /** Declares marks for all sites, and the false alarms that the programme accepts. */
  declare: overAll("declare-fact")
    .input(z.object({ declarations: z.array(declaration).min(1).max(50) }))
    .mutation(async ({ ctx, input }) => {
      await declare(ctx.corridor, 0, input.declarations);
      return { declared: input.declarations.length };
    }),
});
