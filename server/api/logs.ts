import { z } from "zod";
import { asPerson } from "#db/asPerson";
import { latestFiles, statesOf } from "#db/queries/files";
import { rowsOfFile } from "#db/queries/rows";
import { unseal } from "#db/queries/sealed";
import { settlingsOf } from "#db/queries/settled";
import { allSites } from "#db/queries/sites";
import { settledBy } from "#server/evidence/settledBy";
import { arrive, type Sent, slipCode } from "#server/jobs/arrive";
import { eraseBesides } from "#server/jobs/erase";
import { lookAt, type Understood } from "#server/jobs/lookAt";
import { storedSoFar } from "#server/jobs/partsStored";
import { pictureKind } from "#server/jobs/pictureKind";
import { hintsFor } from "#server/jobs/readForSite";
import type { Corridor } from "#server/jobs/record";
import { soFarOf } from "#server/jobs/saidOfFiles";
import { slipOf } from "#server/jobs/send";
import type { LargeOrder } from "#server/jobs/sendParts";
import { Source } from "#server/jobs/source";
import { keepTyped } from "#server/jobs/typed";
import { filledLines, typedCsv } from "#server/jobs/typedSheet";
import { progressOf, stopWork } from "#server/jobs/underWay";
import { withdraw } from "#server/jobs/withdraw";
import { JoinedElsewhere } from "#server/jobs/withoutPart";
import type { Unreadable } from "#server/terms/row";
import { answers } from "./answers";
import { atSite, month, overAll, router, withFile, wrong } from "./base";
import { hintsThen, orderOf, ownAnswers } from "./countedLog";
import { countHere, kept, type Sending, sendRead } from "./counting";
import { sendLarge } from "./largeLog";
import { decidedIn, resent } from "./resent";
import { typedSheet, typingHere, waiting } from "./typing";
import { onlyKnownUnits } from "./unitsSaid";
import { watched } from "./watched";

export { answers } from "./answers";
export type { Sending } from "./counting";

const sent = z.object({
  ...resent,
  bytes: z.custom<Uint8Array>((value) => value instanceof Uint8Array),
  name: z.string().max(255),
  period: month.optional(),
  answers: answers.optional(),
  cameBy: z.enum(["site", "message"]).default("site"),
  claimedAt: z.iso.datetime({ offset: true }).optional(),
});

/** A log on this machine's disk, taken in piece by piece. */
const large = sent.omit({ bytes: true, answers: true, withdraw: true, why: true }).extend({
  source: z.instanceof(Source),
  onPart: z.custom<NonNullable<LargeOrder["onPart"]>>((value) => typeof value === "function").optional(),
});

export const logsRouter = router({
  /** What a site has declared that helps to read its logs. */
  hints: atSite("read-files")
    .input(z.object({ period: month.optional() }))
    .query(({ ctx, input }) => hintsFor(ctx.corridor, ctx.site.id, input.period ?? null)),
  /** Keeps a log, to be looked at before it counts. */
  arrive: atSite("send-log")
    .input(sent)
    .mutation(async ({ ctx, input }) => ({ file: await arrive(ctx.corridor, sentFrom(input, ctx.site.id)) })),
  /** Keeps, reads and counts a log in one go. */
  send: atSite("send-log")
    .input(sent)
    .mutation(({ ctx, input }) =>
      sendRead(ctx, sentFrom(input, ctx.site.id), input.period ?? null, input.answers ?? null, decidedIn(input)),
    ),
  /** The same for a log of the programme, whose rows name their sites. */
  sendBySite: overAll("send-programme-log")
    .input(sent)
    .mutation(({ ctx, input }) =>
      sendRead(ctx, sentFrom(input, null), input.period ?? null, input.answers ?? null, decidedIn(input)),
    ),
  /** The same for logs too large to be read whole: part by part. Called at the keyboard only: no file travels so. */
  sendLarge: atSite("send-log")
    .input(large)
    .mutation(async ({ ctx, input }) => sendLarge(ctx, input, ctx.site.id)),
  sendLargeBySite: overAll("send-programme-log")
    .input(large)
    .mutation(({ ctx, input }) => sendLarge(ctx, input, null)),
  /** What is understood of a log that is here, with these answers; nothing is stored by asking. */
  understood: withFile("read-files")
    .input(z.object({ period: month.optional(), answers: answers.optional() }))
    .query(
      ({ ctx, input }): Promise<Understood | Unreadable> =>
        watched(ctx, "reading", async () => {
          await onlyKnownUnits(ctx.corridor, ctx.found.file.site, input);
          const { bytes } = await kept(ctx.corridor, ctx.found.file);
          return lookAt(ctx.corridor, ctx.bounds, orderOf(ctx.found, bytes, input));
        }),
    ),
  /** Counts a log that is here, with these answers. */
  count: withFile("send-log")
    .input(
      z.object({ period: month.optional(), answers: answers.optional(), again: z.boolean().optional(), ...resent }),
    )
    .mutation(({ ctx, input }): Promise<Sending> => watched(ctx, "counting", () => countHere(ctx, input))),
  /** How far the reading, counting or taking back of a log is that runs now; null where none does. */
  progress: withFile("read-files").query(({ ctx }) => progressOf(ctx.found.file.id, ctx.corridor.person)),
  /** Stops it. What is not wholly stored yet is as if it had not begun; the log itself stays. */
  stop: withFile("send-log").mutation(({ ctx }) => ({ stopped: stopWork(ctx.found.file.id, ctx.corridor.person) })),
  /** A log that is here: whose it is, what became of it, and with which month and answers it was last counted. */
  file: withFile("read-files").query(({ ctx }) =>
    asPerson(ctx.corridor, async (tx) => {
      const { file, state } = ctx.found;
      const hints = hintsThen(ctx.found);
      return {
        file: file.id,
        code: slipCode(file.id),
        site: (await allSites(tx)).find(({ id }) => id === file.site)?.code ?? null,
        name: (await unseal(tx, [file.nameSealed])).get(file.nameSealed) ?? null,
        state,
        /** of a log that is counted part by part: what is counted while others are missing */
        soFar: state === "read" || state === "settled" ? storedSoFar(await statesOf(tx, file.id)) : null,
        /** of a log that is taken back part by part: how many of its loads are, while others still count */
        takenBack: state === "withdrawn" ? soFarOf(ctx.found.detail) : null,
        bytes: file.bytes,
        sha256: file.sha256,
        arrivedAt: new Date(file.arrivedAt).toISOString(),
        claimedAt: file.claimedAt === null ? null : new Date(file.claimedAt).toISOString(),
        cameBy: file.cameBy,
        period: hints?.period ?? null,
        answers: ownAnswers(hints),
        settled: settledBy(await settlingsOf(tx, [file.id], Number.MAX_SAFE_INTEGER)),
        ...(await typingHere(tx, file.id)),
      };
    }),
  ),
  /** The bytes of a picture with its kind by content; kind null for everything that is none. */
  picture: withFile("read-files").query(async ({ ctx }) => {
    const { bytes } = await kept(ctx.corridor, ctx.found.file);
    return { bytes, kind: pictureKind(bytes), code: slipCode(ctx.found.file.id) };
  }),
  /** Keeps what somebody typed from a picture as a log of its own, to be looked at and sent like any other. */
  type: withFile("send-log")
    .input(typedSheet)
    .mutation(async ({ ctx, input }) => {
      const { file, state } = ctx.found;
      if (state === "withdrawn") throw wrong("This picture was taken back.");
      if (pictureKind((await kept(ctx.corridor, file)).bytes) === null) throw wrong("This is no picture.");
      const csv = typedCsv(slipCode(file.id), input);
      if (csv === null) throw wrong("Nothing was typed yet.");
      const lines = filledLines(input.lines).map(({ line }) => line);
      return { file: await keepTyped(ctx.corridor, file, csv, lines) };
    }),
  slip: withFile("read-files").query(({ ctx }) => {
    if (ctx.found.state !== "counted") throw wrong("This log has not been counted, so it has no sending slip yet.");
    return asPerson(ctx.corridor, (tx) => slipOf(tx, ctx.found.file.id));
  }),
  /** Every row of a log with its fate and reasons. */
  rows: withFile("read-files").query(({ ctx }) => asPerson(ctx.corridor, (tx) => rowsOfFile(tx, ctx.found.file.id))),
  /** What a site sent, newest first. */
  list: atSite("read-files").query(({ ctx }) =>
    asPerson(ctx.corridor, async (tx) => {
      const files = await latestFiles(tx, ctx.site.id, Number.MAX_SAFE_INTEGER, 100);
      const names = await unseal(
        tx,
        files.map(({ file }) => file.nameSealed),
      );
      return files.map(({ file, state, detail }) => ({
        typing: waiting(detail),
        file: file.id,
        code: slipCode(file.id),
        name: names.get(file.nameSealed) ?? null,
        state,
        bytes: file.bytes,
        sha256: file.sha256,
        arrivedAt: new Date(file.arrivedAt).toISOString(),
        cameBy: file.cameBy,
      }));
    }),
  ),
  withdraw: withFile("withdraw-log")
    .input(z.object({ reason: z.string().min(1).max(300) }))
    .mutation(async ({ ctx, input }) => ({
      withdrawn: await watched(ctx, "taking-back", () => takenBackOf(ctx.corridor, ctx.found.file.id, input.reason)),
    })),
  /** Erases the names and remarks of a log, on the wish of those named; its figures stay. */
  erase: withFile("erase-names")
    .input(z.object({ reason: z.string().min(1).max(300) }))
    .mutation(async ({ ctx, input }) => ({
      erased: await eraseBesides(ctx.corridor, ctx.found.file.id, input.reason),
    })),
  /** The bytes as they came. */
  original: withFile("read-files").query(async ({ ctx }) => ({
    bytes: (await kept(ctx.corridor, ctx.found.file)).bytes,
    sha256: ctx.found.file.sha256,
  })),
});

function sentFrom(input: z.infer<typeof sent>, site: number | null): Sent {
  return { bytes: input.bytes, name: input.name, site, cameBy: input.cameBy, claimedAt: input.claimedAt ?? null };
}

/** Takes a log back, or says which other log must be taken back first. */
function takenBackOf(corridor: Corridor, file: string, reason: string): Promise<boolean> {
  return withdraw(corridor, file, reason).catch((trouble: unknown) => {
    if (!(trouble instanceof JoinedElsewhere)) throw trouble;
    throw wrong(
      `The dried weight of some of its loads came with ${slipCode(trouble.file)}, and they count there together. Take that log back first.`,
    );
  });
}
