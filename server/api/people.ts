import { z } from "zod";
import { asPerson } from "#db/asPerson";
import { allSites, siteByCode } from "#db/queries/sites";
import { addPerson, endPerson, listPeople, nameOf, resetCode } from "#server/jobs/people";
import { forPerson, overAll, router, wrong } from "./base";

const name = z
  .string()
  .trim()
  .min(2)
  .max(60)
  .regex(/^[\p{L}\p{N}][\p{L}\p{M}\p{N} .'@_-]*$/u, "may hold letters, digits, spaces and . ' @ _ -");

export const peopleRouter = router({
  /** Whoever is signed in: role, name, and the code of their site. */
  me: forPerson.query(async ({ ctx }) => {
    const { id, role, site } = ctx.person;
    return asPerson(ctx.corridor, async (tx) => {
      const name = await nameOf(tx, id);
      const own = site === null ? undefined : (await allSites(tx)).find((one) => one.id === site);
      return { id, role, name: name ?? role, site: own?.code ?? null };
    });
  }),
  /** Everybody, with the code of the site that a lead has. */
  list: overAll("decide-people").query(async ({ ctx }) => {
    const sites = await asPerson(ctx.corridor, allSites);
    const people = await listPeople(ctx.corridor);
    return people.map((one) => ({ ...one, siteCode: sites.find(({ id }) => id === one.site)?.code ?? null }));
  }),
  /** Adds somebody; the password is told this once. */
  add: overAll("decide-people")
    .input(z.object({ name, role: z.enum(["officer", "lead", "auditor"]), site: z.string().optional() }))
    .mutation(async ({ ctx, input }) => {
      if ((input.role === "lead") !== (input.site !== undefined))
        throw wrong("A site lead has a site, and nobody else has one.");
      const site =
        input.site === undefined ? null : await asPerson(ctx.corridor, (tx) => siteByCode(tx, input.site ?? ""));
      if (site === undefined) throw wrong(`There is no site ${input.site}.`);
      const added = await addPerson(ctx.corridor, { name: input.name, role: input.role, site: site?.id ?? null });
      if (added === undefined)
        throw wrong(`The name ${input.name} is taken. Add something to it, such as a second name.`);
      return { ...added, name: input.name, role: input.role, site: site?.code ?? null };
    }),
  end: overAll("decide-people")
    .input(z.object({ id: z.guid() }))
    .mutation(async ({ ctx, input }) => {
      const left = (await listPeople(ctx.corridor)).filter(
        ({ id, role, active }) => active && role === "officer" && id !== input.id,
      );
      if (left.length === 0 && ctx.person.role === "officer")
        throw wrong("You would be the last officer: add another one first.");
      return { ended: await endPerson(ctx.corridor, input.id) };
    }),
  /** A code with which somebody sets a new password, once, within a day. */
  reset: overAll("decide-people")
    .input(z.object({ id: z.guid() }))
    .mutation(async ({ ctx, input }) => {
      const code = await resetCode(ctx.corridor, input.id);
      if (code === undefined) throw wrong("Nobody with this id signs in here.");
      return { code };
    }),
});
