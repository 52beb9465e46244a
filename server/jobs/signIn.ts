import { createHash, randomBytes } from "node:crypto";
import { asPerson } from "#db/asPerson";
import {
  clearFailures,
  closeSession,
  closeSessionsOf,
  failuresOf,
  forgetOldSessions,
  openSession,
  personById,
  sessionOf,
  sessionSeen,
  setFailures,
  setSignIn,
  signInByName,
  signInOf,
} from "#db/queries/people";
import type { Store } from "#db/store";
import type { Person } from "#server/terms/person";
import { isPassword, passwordHash, weakness } from "./passwords";
import { codeHash } from "./people";

/** How long a session lasts, idle and in all: site leads have bad signal and their own phone, the others see more. */
const LASTS = { lead: { idleHours: 24 * 14, hours: 24 * 60 }, other: { idleHours: 12, hours: 24 * 7 } } as const;
const TRIES = { byName: 8, byAddress: 40, minutes: 15 } as const;

export type SignedIn =
  | { readonly token: string; readonly mustChange: boolean; readonly until: string }
  | { readonly refused: "wrong" | "too-many" };

/** Signs a person in by name and password. Says nothing about which of the two was wrong, in words or in time. */
export async function signIn(
  store: Store,
  clock: () => Date,
  name: string,
  password: string,
  address: string,
): Promise<SignedIn> {
  const keys = [`name ${name.toLowerCase()}`, `address ${address}`] as const;
  if ((await tooMany(store, clock, keys[0], TRIES.byName)) || (await tooMany(store, clock, keys[1], TRIES.byAddress)))
    return { refused: "too-many" };
  const known = await signInByName(store.db, name);
  const right = await isPassword(password, known?.passwordHash ?? null);
  const person = known === undefined || !right ? undefined : await personOf(store, known.person);
  if (known === undefined || person === undefined) {
    for (const key of keys) await countFailure(store, clock, key);
    return { refused: "wrong" };
  }
  await clearFailures(store.db, keys[0]);
  return { ...(await newSession(store, clock, person)), mustChange: known.mustChange };
}

/** Sets a new password with a one-time code, ends every open session of that person, and signs in. */
export async function useReset(
  store: Store,
  clock: () => Date,
  name: string,
  code: string,
  password: string,
  address: string,
): Promise<SignedIn | { readonly weak: string }> {
  const key = `address ${address}`;
  if (await tooMany(store, clock, key, TRIES.byAddress)) return { refused: "too-many" };
  const known = await signInByName(store.db, name);
  const stands =
    known?.resetHash === codeHash(code) &&
    known.resetUntil !== null &&
    Date.parse(known.resetUntil) > clock().getTime();
  const person = known === undefined || !stands ? undefined : await personOf(store, known.person);
  if (known === undefined || person === undefined) {
    await countFailure(store, clock, key);
    return { refused: "wrong" };
  }
  const weak = weakness(password, name);
  if (weak !== null) return { weak };
  await setSignIn(store.db, {
    ...known,
    passwordHash: await passwordHash(password),
    mustChange: false,
    resetHash: null,
    resetUntil: null,
  });
  await closeSessionsOf(store.db, known.person);
  return { ...(await newSession(store, clock, person)), mustChange: false };
}

/** Changes the own password, for which the old one is asked; other sessions end. Answers a sentence when it may not be. */
export async function changePassword(
  store: Store,
  clock: () => Date,
  person: Person,
  old: string,
  password: string,
): Promise<{ readonly token: string; readonly until: string } | { readonly sentence: string }> {
  const known = await signInOf(store.db, person.id);
  if (known === undefined || !(await isPassword(old, known.passwordHash)))
    return { sentence: "The present password is another one." };
  const weak = weakness(password, known.name);
  if (weak !== null) return { sentence: weak };
  await setSignIn(store.db, { ...known, passwordHash: await passwordHash(password), mustChange: false });
  await closeSessionsOf(store.db, person.id);
  return newSession(store, clock, person);
}

/** Who holds a session, looked up anew each time, so that an ended person is out at once. */
export async function personOfSession(store: Store, clock: () => Date, token: string): Promise<Person | undefined> {
  return (await holderOfSession(store, clock, token))?.person;
}

/** The same, and whether they must set an own password first. */
export async function holderOfSession(
  store: Store,
  clock: () => Date,
  token: string,
): Promise<{ readonly person: Person; readonly mustChange: boolean } | undefined> {
  const now = clock();
  const session = await sessionOf(store.db, tokenHash(token), now.toISOString());
  if (session === undefined) return undefined;
  const person = await personOf(store, session.person);
  if (person === undefined) return undefined;
  const idle = now.getTime() - Date.parse(session.seen);
  if (idle > lasts(person).idleHours * 3_600_000) return undefined;
  if (idle > 60_000) await sessionSeen(store.db, tokenHash(token), now.toISOString());
  return { person, mustChange: session.mustChange };
}

export async function signOut(store: Store, token: string): Promise<void> {
  await closeSession(store.db, tokenHash(token));
}

async function newSession(store: Store, clock: () => Date, person: Person): Promise<{ token: string; until: string }> {
  const token = randomBytes(32).toString("base64url");
  const now = clock();
  const until = new Date(now.getTime() + lasts(person).hours * 3_600_000).toISOString();
  await forgetOldSessions(store.db, now.toISOString());
  await openSession(store.db, {
    tokenHash: tokenHash(token),
    person: person.id,
    begun: now.toISOString(),
    seen: now.toISOString(),
    until,
  });
  return { token, until };
}

async function personOf(store: Store, id: string): Promise<Person | undefined> {
  const found = await asPerson({ store, person: id }, (tx) => personById(tx, id));
  return found === undefined ? undefined : { id: found.id, role: found.role, site: found.site };
}

function lasts(person: Person) {
  return person.role === "lead" ? LASTS.lead : LASTS.other;
}

function tokenHash(token: string): string {
  return createHash("sha256").update(token).digest("hex");
}

async function tooMany(store: Store, clock: () => Date, key: string, most: number): Promise<boolean> {
  const failed = await failuresOf(store.db, key);
  return (
    failed !== undefined &&
    failed.count >= most &&
    Date.parse(failed.since) > clock().getTime() - TRIES.minutes * 60_000
  );
}

async function countFailure(store: Store, clock: () => Date, key: string): Promise<void> {
  const failed = await failuresOf(store.db, key);
  const recent = failed !== undefined && Date.parse(failed.since) > clock().getTime() - TRIES.minutes * 60_000;
  await setFailures(store.db, {
    key,
    count: recent ? failed.count + 1 : 1,
    since: recent ? failed.since : clock().toISOString(),
  });
}
