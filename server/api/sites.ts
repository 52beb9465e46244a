import { z } from "zod";
import { asPerson } from "#db/asPerson";
import { knownOn } from "#db/queries/ledger";
import { allSites, factsOf } from "#db/queries/sites";
import { mayAnywhere } from "#server/access/rules";
import { declare, openSite } from "#server/jobs/declare";
import { declareFuel } from "#server/jobs/declareFuel";
import { lateClosings } from "#server/jobs/lateClosings";
import { siteDay } from "#server/jobs/siteDay";
import { FACT_KINDS, FACTS, type FactKind, inForce } from "#server/terms/facts";
import { FUELS, HOW_KNOWN } from "#server/terms/fuel";
import { atSite, day, forPerson, moment, overAll, router, wrong } from "./base";

const declaration = z
  .object({
    kind: z.enum(FACT_KINDS as [FactKind, ...FactKind[]]),
    key: z.string().max(80).optional(),
    from: day,
    to: day.nullable().optional(),
    value: z.unknown(),
  })
  .superRefine(({ kind, value, from, to }, said) => {
    if (to != null && to < from)
      said.addIssue({ code: "custom", message: `ends on ${to}, before it begins on ${from}` });
    if (value === null) return;
    for (const { path, message } of FACTS[kind].safeParse(value).error?.issues ?? []) {
      said.addIssue({ code: "custom", message: `${kind}${path.length === 0 ? "" : ` ${path.join(".")}`}: ${message}` });
    }
  });

/** What a site may say of itself; everything else is the programme's to say. */
const OWN_WORDS: readonly FactKind[] = ["closed", "nothing-produced"];

const code = z.string().regex(/^[A-Za-z0-9][A-Za-z0-9-]{0,19}$/, "must be 1 to 20 letters, digits or hyphens");

export const sitesRouter = router({
  /** The sites that the person may see, with what is in force today. */
  list: forPerson.query(({ ctx }) =>
    asPerson(ctx.corridor, async (tx) => {
      const sites = await allSites(tx);
      const facts = await factsOf(
        tx,
        sites.map(({ id }) => id),
        Number.MAX_SAFE_INTEGER,
      );
      return sites.map(({ id, code }) => {
        const own = facts.filter((fact) => fact.site === id);
        const today = siteDay(ctx.clock(), facts, id);
        const method = inForce(own, "method", today)?.method ?? null;
        return {
          code,
          name: inForce(own, "name", today)?.name ?? code,
          method,
          language: inForce(own, "language", today)?.language ?? null,
          today,
        };
      });
    }),
  ),
  open: overAll("open-site")
    .input(z.object({ code, declarations: z.array(declaration).max(50) }))
    .mutation(async ({ ctx, input }) => {
      const site = await openSite(ctx.corridor, input.code, input.declarations);
      if (site === undefined) throw wrong(`The code ${input.code} is taken by another site.`);
      return { site: site.code };
    }),
  /** Everything declared about a site, as known on. */
  facts: atSite("read-figures")
    .input(z.object({ asOf: moment.optional() }))
    .query(({ ctx, input }) =>
      asPerson(ctx.corridor, async (tx) => {
        const { ledgerSize } = await knownOn(tx, input.asOf ?? null);
        return (await factsOf(tx, [ctx.site.id], ledgerSize)).filter((fact) => fact.site === ctx.site.id);
      }),
    ),
  /** Closed days declared too late that nobody has accepted: still owed. */
  lateClosings: atSite("read-figures").query(({ ctx }) =>
    asPerson(ctx.corridor, async (tx) =>
      lateClosings(await factsOf(tx, [ctx.site.id], Number.MAX_SAFE_INTEGER), ctx.site.id),
    ),
  ),
  declare: atSite("declare-closing")
    .input(z.object({ declarations: z.array(declaration).min(1).max(200) }))
    .mutation(async ({ ctx, input }) => {
      const foreign = input.declarations.find(({ kind }) => !OWN_WORDS.includes(kind));
      if (foreign !== undefined && !mayAnywhere(ctx.person, "declare-fact"))
        throw wrong(
          `What a site declares of itself are closed days and months without production; "${foreign.kind}" is for the programme to declare.`,
        );
      const accepts = input.declarations.some(
        ({ kind, value }) => kind === "closed" && z.object({ accepted: z.literal(true) }).safeParse(value).success,
      );
      if (accepts && !mayAnywhere(ctx.person, "declare-fact"))
        throw wrong("A late closing is accepted by the programme, not by the site.");
      await declare(ctx.corridor, ctx.site.id, input.declarations);
      return { declared: input.declarations.length };
    }),
  /** Fuel burned over some days, weighed or counted or bought: what no line of a log says. */
  declareFuel: atSite("declare-fact")
    .input(
      z.object({
        fuel: z.enum(FUELS),
        from: day,
        to: day,
        how: z.enum(HOW_KNOWN),
        unit: z.enum(["kg", "kWh", "L", "m3"]),
        best: z.number().min(0),
        low: z.number().min(0).optional(),
        high: z.number().min(0).optional(),
      }),
    )
    .mutation(async ({ ctx, input }) => {
      const { low = input.best, high = input.best } = input;
      if (input.to < input.from || low > input.best || high < input.best)
        throw wrong("The days or the amounts are in the wrong order.");
      await declareFuel(ctx.corridor, ctx.site.id, { ...input, low, high });
      return { declared: 1 };
    }),
});
