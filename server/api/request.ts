import { theStore } from "#db/client";
import {
  changePassword,
  holderOfSession,
  personOfSession,
  signIn,
  useReset as signInByCode,
  signOut,
} from "#server/jobs/signIn";
import { readSettings, type Settings } from "#server/settings";
import type { Person } from "#server/terms/person";
import type { Context } from "./base";
import { callerOf } from "./router";

/** The procedures as somebody calls them. */
export type Api = ReturnType<typeof callerOf>;

/** Who stands behind a request, and what they may ask. */
export interface Asked {
  /** null where nobody has signed in */
  readonly person: Person | null;
  /** the password was made by somebody else: until an own one is set, nothing may be asked */
  readonly mustChange: boolean;
  readonly api: Api;
}

const clock = () => new Date();

/** The context of a request that carries this session; somebody who must first set an own password is nobody yet. */
export async function contextFor(token: string | undefined): Promise<Context & Pick<Asked, "mustChange">> {
  const store = await theStore();
  const holder = token === undefined ? undefined : await holderOfSession(store, clock, token);
  const mustChange = holder?.mustChange ?? false;
  return { store, person: mustChange ? null : (holder?.person ?? null), clock, bounds: settings().bounds, mustChange };
}

export async function callerFor(token: string | undefined): Promise<Asked> {
  const { mustChange, ...context } = await contextFor(token);
  return { person: context.person, mustChange, api: callerOf(context) };
}

/** Signs in by name and password; `address` is whence, to slow guessing down. */
export async function signInWith(name: string, password: string, address: string) {
  return signIn(await theStore(), clock, name, password, address);
}

/** Sets a new password with a one-time code, and signs in. */
export async function signInWithCode(name: string, code: string, password: string, address: string) {
  return signInByCode(await theStore(), clock, name, code, password, address);
}

/** Sets an own password in the place of the present one; undefined where the session is none. */
export async function setPassword(token: string, present: string, password: string) {
  const store = await theStore();
  const person = await personOfSession(store, clock, token);
  return person === undefined ? undefined : changePassword(store, clock, person, present, password);
}

export async function endSession(token: string): Promise<void> {
  await signOut(await theStore(), token);
}

let read: Settings | null = null;

function settings(): Settings {
  read ??= readSettings();
  return read;
}

/** The largest file that is taken, in bytes. */
export function largestFile(): number {
  return settings().bounds.bytes;
}

export { answerNothingHere, answerSandboxed } from "#server/front/currentAnswer";
export { demoArriving } from "#server/front/demoArriving";
