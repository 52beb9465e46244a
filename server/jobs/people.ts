import { createHash, randomBytes } from "node:crypto";
import { asPerson } from "#db/asPerson";
import { closeSessionsOf, everybody, personById, setSignIn, signInByName, signInOf } from "#db/queries/people";
import { unseal } from "#db/queries/sealed";
import type { Tx } from "#db/store";
import type { Role } from "#server/terms/person";
import { newId } from "./newId";
import { newPassword, passwordHash } from "./passwords";
import { type Corridor, record } from "./record";
import { seal } from "./seal";

export interface NewPerson {
  readonly name: string;
  readonly role: Role;
  /** of a site lead */
  readonly site: number | null;
}

export interface Listed {
  readonly id: string;
  readonly name: string;
  readonly role: Role;
  readonly site: number | null;
  readonly active: boolean;
}

/** Adds a person with a password made for them, told once. Answers undefined when the name is taken. */
export async function addPerson(
  corridor: Corridor,
  { name, role, site }: NewPerson,
): Promise<{ id: string; password: string } | undefined> {
  if ((await signInByName(corridor.store.db, name)) !== undefined) return undefined;
  const id = newId(corridor.clock());
  const sealed = seal(name, site);
  const password = newPassword();
  const hash = await passwordHash(password);
  await record<void>(corridor, async () => ({
    command: "add-person",
    site,
    about: { person: id, role },
    sealed: [sealed],
    changes: { people: [{ id, role, site, active: true, nameSealed: sealed.commitment }] },
    answer: () => undefined,
  }));
  await setSignIn(corridor.store.db, {
    person: id,
    name,
    passwordHash: hash,
    mustChange: true,
    resetHash: null,
    resetUntil: null,
  });
  return { id, password };
}

/** Ends what a person may do, at once and on every device. The record of what they did stays. */
export async function endPerson(corridor: Corridor, id: string): Promise<boolean> {
  const ended = await record<boolean>(corridor, async (tx) => {
    const person = await personById(tx, id);
    if (person === undefined) return { nothing: false };
    const { role, site, nameSealed } = person;
    return {
      command: "end-person",
      site,
      about: { person: id },
      changes: { people: [{ id, role, site, active: false, nameSealed }] },
      answer: () => true,
    };
  });
  await closeSessionsOf(corridor.store.db, id);
  return ended;
}

const RESET_HOURS = 24;

/** A code with which a person sets a new password, once and within a day. Answers undefined for somebody unknown. */
export async function resetCode(corridor: Corridor, person: string): Promise<string | undefined> {
  const signIn = await signInOf(corridor.store.db, person);
  if (signIn === undefined) return undefined;
  const code = randomBytes(15).toString("base64url");
  const until = new Date(corridor.clock().getTime() + RESET_HOURS * 3_600_000).toISOString();
  await setSignIn(corridor.store.db, { ...signIn, resetHash: codeHash(code), resetUntil: until });
  return code;
}

export function codeHash(code: string): string {
  return createHash("sha256").update(code).digest("hex");
}

/** The name of a person; undefined where it was erased. */
export async function nameOf(tx: Tx, person: string): Promise<string | undefined> {
  const sealed = (await personById(tx, person))?.nameSealed ?? null;
  return sealed === null ? undefined : (await unseal(tx, [sealed])).get(sealed);
}

/** Everybody whom the person may see, with their names as far as these were not erased. */
export async function listPeople(corridor: Corridor): Promise<Listed[]> {
  return asPerson(corridor, async (tx) => {
    const all = await everybody(tx);
    const names = await unseal(
      tx,
      all.flatMap(({ nameSealed }) => nameSealed ?? []),
    );
    return all.map(({ id, role, site, active, nameSealed }) => ({
      id,
      role,
      site,
      active,
      name: names.get(nameSealed ?? "") ?? role,
    }));
  });
}
