import { initTRPC, TRPCError } from "@trpc/server";
import { z } from "zod";
import { asPerson } from "#db/asPerson";
import { fileById } from "#db/queries/files";
import { siteByCode } from "#db/queries/sites";
import type { Store } from "#db/store";
import { type Action, may } from "#server/access/rules";
import { BeingTakenBack, slipCode } from "#server/jobs/arrive";
import type { Corridor } from "#server/jobs/record";
import type { Person } from "#server/terms/person";
import type { Bounds } from "#server/terms/row";
import { complaintsIn } from "./plainChecks";
import { textsOnly } from "./textsOnly";

/** What a request brings to every procedure. */
export interface Context {
  readonly store: Store;
  readonly person: Person | null;
  readonly clock: () => Date;
  readonly bounds: Bounds;
  /** the rule of access; tests take it away to see that the database holds alone */
  readonly rule?: typeof may;
}

const t = initTRPC.context<Context>().create({
  errorFormatter: ({ shape, error }) => {
    if (error.cause instanceof z.ZodError) return { ...shape, message: complaintsIn(error.cause) };
    if (error.code !== "INTERNAL_SERVER_ERROR") return shape;
    const message = "Something broke on our side. It was written down; try again.";
    return { ...shape, message, data: { ...shape.data, stack: undefined } };
  },
});

export const router = t.router;
export const createCaller = t.createCallerFactory;

/** Whoever has signed in. */
const signedIn = t.procedure
  .use(async ({ next }) => {
    const answer = await next();
    if (!answer.ok && answer.error.cause instanceof BeingTakenBack)
      throw wrong(
        `This log is just being taken back, and not all of it is. Take back the rest of ${slipCode(answer.error.cause.file)} first; then it can come again.`,
      );
    return answer;
  })
  .use(({ next, getRawInput }) => next({ getRawInput: async () => textsOnly(await getRawInput()) }))
  .use(({ ctx, next }) => {
    if (ctx.person === null) throw new TRPCError({ code: "UNAUTHORIZED", message: "Sign in first." });
    const corridor: Corridor = { store: ctx.store, person: ctx.person.id, clock: ctx.clock };
    return next({ ctx: { ...ctx, person: ctx.person, corridor } });
  });

/** Something that concerns the person alone, or what the database shows them of a whole. */
export const forPerson = signedIn;

/** Something over the whole programme. */
export function overAll(action: Action) {
  return signedIn.use(({ ctx, next }) => {
    if ((ctx.rule ?? may)(ctx.person, action, null) !== "yes") throw refused();
    return next();
  });
}

/** Something at one site, named by its code. A site that the person may not see is answered like one that does not exist. */
export function atSite(action: Action) {
  return signedIn.input(z.object({ site: z.string() })).use(async ({ ctx, input, next }) => {
    const site = await asPerson(ctx.corridor, (tx) => siteByCode(tx, input.site));
    const decided = site === undefined ? "unseen" : (ctx.rule ?? may)(ctx.person, action, site.id);
    if (site === undefined || decided === "unseen") throw unseen(`There is no site ${input.site}.`);
    if (decided !== "yes") throw refused();
    return next({ ctx: { site } });
  });
}

/** Something with one file. Files of the programme are for those who see the whole of it. */
export function withFile(action: Action) {
  return signedIn.input(z.object({ file: z.string() })).use(async ({ ctx, input, next }) => {
    const found = z.guid().safeParse(input.file).success
      ? await asPerson(ctx.corridor, (tx) => fileById(tx, input.file))
      : undefined;
    const decided = found === undefined ? "unseen" : (ctx.rule ?? may)(ctx.person, action, found.file.site);
    if (found === undefined || decided === "unseen") throw unseen("There is no such file.");
    if (decided !== "yes") throw refused();
    return next({ ctx: { found } });
  });
}

function refused(): TRPCError {
  return new TRPCError({ code: "FORBIDDEN", message: "Your role does not allow this." });
}

/** What is not there, or not for the one who asks. */
export function unseen(message: string): TRPCError {
  return new TRPCError({ code: "NOT_FOUND", message });
}

/** What a person's mistake is answered with. */
export function wrong(message: string): TRPCError {
  return new TRPCError({ code: "BAD_REQUEST", message });
}

export const day = z.string().regex(/^\d{4}-\d{2}-\d{2}$/, "must be a day such as 2031-03-31");
export const month = z.string().regex(/^\d{4}-(0[1-9]|1[0-2])$/, "must be a month such as 2031-03");
/** A moment of knowledge: a time with its zone, or a day, of which the end (UTC) is meant. */
export const moment = z
  .string()
  .transform((text) => (/^\d{4}-\d{2}-\d{2}$/.test(text) ? `${text}T23:59:59.999Z` : text))
  .refine(
    (text) => !Number.isNaN(Date.parse(text)),
    "must be a day such as 2031-03-31, or a time such as 2031-03-31T12:00Z",
  )
  .transform((text) => new Date(text).toISOString());
/** The same, or "record-93": what was known with so many records, however many share their time. */
export const momentOrRecord = z.string().transform((text, asked) => {
  if (/^record-\d{1,9}$/.test(text)) return text;
  const read = moment.safeParse(text);
  if (read.success) return read.data;
  asked.addIssue(`${read.error.issues[0]?.message}, or a number of records such as record-93`);
  return z.NEVER;
});
