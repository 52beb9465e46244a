import { and, asc, desc, eq, gt, lt } from "drizzle-orm";
import type { Person, Role } from "#server/terms/person";
import { failures, people, sessions, signIns } from "../schema";
import type { Database, Tx } from "../store";

/** A person as last decided; undefined when there is none, or none that may act any more. */
export async function personById(tx: Tx, id: string): Promise<(Person & { nameSealed: string | null }) | undefined> {
  const [last] = await tx.select().from(people).where(eq(people.id, id)).orderBy(desc(people.ledgerIndex)).limit(1);
  if (last === undefined || !last.active) return undefined;
  return { id: last.id, role: last.role as Role, site: last.site, nameSealed: last.nameSealed };
}

/** Everybody whom the person may see, as last decided. */
export async function everybody(tx: Tx): Promise<(Person & { active: boolean; nameSealed: string | null })[]> {
  const last = await tx.selectDistinctOn([people.id]).from(people).orderBy(asc(people.id), desc(people.ledgerIndex));
  return last.map(({ ledgerIndex: _when, role, ...person }) => ({ ...person, role: role as Role }));
}

export type SignIn = typeof signIns.$inferSelect;

// Sign-in happens before anybody is known, so it is asked outside asPerson; these three tables hold nothing of a site.

export async function signInByName(db: Database, name: string): Promise<SignIn | undefined> {
  const [found] = await db.select().from(signIns).where(eq(signIns.name, name));
  return found;
}

export async function signInOf(db: Database, person: string): Promise<SignIn | undefined> {
  const [found] = await db.select().from(signIns).where(eq(signIns.person, person));
  return found;
}

export async function setSignIn(db: Database, row: SignIn): Promise<void> {
  await db.insert(signIns).values(row).onConflictDoUpdate({ target: signIns.person, set: row });
}

export async function openSession(db: Database, row: typeof sessions.$inferInsert): Promise<void> {
  await db.insert(sessions).values(row);
}

/** The person of a session that is still open, and whether they must set an own password first. */
export async function sessionOf(
  db: Database,
  tokenHash: string,
  now: string,
): Promise<{ person: string; seen: string; mustChange: boolean } | undefined> {
  const [found] = await db
    .select({ person: sessions.person, seen: sessions.seen, mustChange: signIns.mustChange })
    .from(sessions)
    .leftJoin(signIns, eq(signIns.person, sessions.person))
    .where(and(eq(sessions.tokenHash, tokenHash), gt(sessions.until, now)));
  return found && { ...found, mustChange: found.mustChange ?? false };
}

export async function sessionSeen(db: Database, tokenHash: string, now: string): Promise<void> {
  await db.update(sessions).set({ seen: now }).where(eq(sessions.tokenHash, tokenHash));
}

export async function closeSession(db: Database, tokenHash: string): Promise<void> {
  await db.delete(sessions).where(eq(sessions.tokenHash, tokenHash));
}

export async function closeSessionsOf(db: Database, person: string): Promise<void> {
  await db.delete(sessions).where(eq(sessions.person, person));
}

export async function forgetOldSessions(db: Database, now: string): Promise<void> {
  await db.delete(sessions).where(lt(sessions.until, now));
}

export async function failuresOf(db: Database, key: string): Promise<{ count: number; since: string } | undefined> {
  const [found] = await db
    .select({ count: failures.count, since: failures.since })
    .from(failures)
    .where(eq(failures.key, key));
  return found;
}

export async function setFailures(db: Database, row: typeof failures.$inferInsert): Promise<void> {
  await db.insert(failures).values(row).onConflictDoUpdate({ target: failures.key, set: row });
}

export async function clearFailures(db: Database, key: string): Promise<void> {
  await db.delete(failures).where(eq(failures.key, key));
}
