import { z } from "zod";
import { asPerson } from "#db/asPerson";
import { unseal } from "#db/queries/sealed";
import { arrive, slipCode } from "#server/jobs/arrive";
import { readAsCounted } from "#server/jobs/countedBefore";
import { ROWS_AT_ONCE } from "#server/jobs/dayParts";
import { differenceOf } from "#server/jobs/difference";
import { deedsTold, sentBefore } from "#server/jobs/history";
import { ownRowsCsv } from "#server/jobs/ownRows";
import { readForSite } from "#server/jobs/readForSite";
import { answers } from "./answers";
import { atSite, month, overAll, router, unseen, withFile, wrong } from "./base";
import { orderOf } from "./countedLog";
import { onlyKnownUnits } from "./unitsSaid";
import { watched } from "./watched";

const page = z.object({ before: z.int().min(1).optional(), most: z.int().min(1).max(100).default(25) });

/** What was sent: its history, what a new log differs in from earlier ones, and the way back. */
export const sentRouter = router({
  /** What a site sent, newest first, and the logs of the programme with rows of it; or its own for a month. */
  ofSite: atSite("read-files")
    .input(page.extend({ month: month.optional() }))
    .query(({ ctx, input }) => {
      const whose = { site: ctx.site.id, ...(input.month === undefined ? {} : { month: input.month }) };
      return sentBefore(ctx.corridor, whose, input.before ?? null, input.most);
    }),
  /** What everybody sent, or the logs of the programme alone, newest first. */
  ofAll: overAll("read-files")
    .input(page.extend({ whose: z.enum(["programme", "all"]).default("all") }))
    .query(({ ctx, input }) => sentBefore(ctx.corridor, input.whose, input.before ?? null, input.most)),
  /** Everything that became of a log, with who did it and when. */
  deeds: withFile("read-files").query(({ ctx }) => deedsTold(ctx.corridor, ctx.found.file.id)),
  /** What counting a log that is here would change in what its sites have; null where nothing of it was here before. */
  difference: withFile("read-files")
    .input(z.object({ period: month.optional(), answers: answers.optional() }))
    .query(({ ctx, input }) =>
      watched(ctx, "reading", async () => {
        const { file } = ctx.found;
        await onlyKnownUnits(ctx.corridor, file.site, input);
        const bytes = await asPerson(ctx.corridor, (tx) => ctx.store.storage.bytes(tx, file.sha256));
        if (bytes === undefined) throw new Error(`the bytes ${file.sha256} are gone`);
        const order = orderOf(ctx.found, bytes, input);
        const { reading, hints } = await readForSite(ctx.corridor, ctx.bounds, order);
        if ("refused" in reading) return null;
        const isLarge = reading.rows.length > ROWS_AT_ONCE;
        const before = isLarge ? await readAsCounted(ctx.corridor, ctx.bounds, file.id, bytes) : null;
        return differenceOf(ctx.corridor, { ...file, before }, reading, hints.answers ?? null);
      }),
    ),
  /** Keeps a log of the programme, whose rows name their sites, to be looked at before it counts. */
  arriveBySite: overAll("send-programme-log")
    .input(z.object({ bytes: z.custom<Uint8Array>((value) => value instanceof Uint8Array), name: z.string().max(255) }))
    .mutation(async ({ ctx, input }) => ({
      file: await arrive(ctx.corridor, { ...input, site: null, cameBy: "site", claimedAt: null }),
    })),
  /** Brings a log that was taken back in once more, as it came, to be looked at. */
  again: withFile("send-log").mutation(async ({ ctx }) => {
    const { file, state } = ctx.found;
    if (state !== "withdrawn") throw wrong("This log was not taken back, so it need not be sent again.");
    const { bytes, name } = await asPerson(ctx.corridor, async (tx) => ({
      bytes: await ctx.store.storage.bytes(tx, file.sha256),
      name: (await unseal(tx, [file.nameSealed])).get(file.nameSealed) ?? "log",
    }));
    if (bytes === undefined) throw new Error(`the bytes ${file.sha256} are gone`);
    const cameBy = file.cameBy === "message" ? ("message" as const) : ("site" as const);
    return { file: await arrive(ctx.corridor, { bytes, name, site: file.site, cameBy, claimedAt: file.claimedAt }) };
  }),
  /** Of a log of the programme the rows of one site, as CSV: what its lead gets of it. */
  ownRows: atSite("read-files")
    .input(z.object({ file: z.guid() }))
    .query(async ({ ctx, input }) => {
      const csv = await ownRowsCsv(ctx.corridor, input.file, ctx.site.id);
      if (csv === null) throw unseen("This log has no row of the site.");
      return { csv, code: slipCode(input.file) };
    }),
});
