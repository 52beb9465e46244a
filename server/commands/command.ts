import { type ParseArgsConfig, parseArgs } from "node:util";
import { TRPCError } from "@trpc/server";
import { z } from "zod";
import { asPerson } from "#db/asPerson";
import { theStore } from "#db/client";
import { personById, signInByName } from "#db/queries/people";
import type { Context } from "#server/api/base";
import { callerOf } from "#server/api/router";
import { begin } from "#server/jobs/begin";
import { readSettings } from "#server/settings";
import { OPERATOR, type Person } from "#server/terms/person";

/** Where a command stands and whom it talks to. */
export interface Io {
  readonly cwd: string;
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
}

/** The call is wrong: exit 2. The message says how it is right. */
export class WrongCall extends Error {}
/** The data are wrong: exit 1. */
export class WrongData extends Error {}

export type Api = ReturnType<typeof callerOf>;

/** Reads a command's words and options; what it does not know is a wrong call. */
export function wordsOf<T extends NonNullable<ParseArgsConfig["options"]>>(argv: readonly string[], options: T) {
  try {
    return parseArgs({
      args: [...argv],
      options: { json: { type: "boolean" }, as: { type: "string" }, ...options },
      allowPositionals: true,
      strict: true,
    });
  } catch (trouble) {
    throw new WrongCall(
      trouble instanceof Error ? (trouble.message.split(". ")[0] ?? trouble.message) : String(trouble),
    );
  }
}

/** The same procedures as the pages ask, for the person named by `--as`: the operator by default. */
export async function apiAs(name: string | undefined): Promise<Api> {
  const store = await theStore();
  const clock = () => new Date();
  await begin(store, clock);
  const person = name === undefined ? OPERATOR : await personNamed(name);
  const context: Context = { store, person, clock, bounds: readSettings().bounds };
  return callerOf(context);
}

async function personNamed(name: string): Promise<Person> {
  const store = await theStore();
  const signIn = await signInByName(store.db, name);
  const person =
    signIn === undefined
      ? undefined
      : await asPerson({ store, person: signIn.person }, (tx) => personById(tx, signIn.person));
  if (person === undefined) throw new WrongCall(`Nobody called ${name} may act here.`);
  return { id: person.id, role: person.role, site: person.site };
}

/** The option's value, or a sentence that it is missing. */
export function needed(value: string | undefined, option: string): string {
  if (value === undefined) throw new WrongCall(`Say --${option}.`);
  return value;
}

/** What went wrong, in a sentence for the person at the keyboard, with the exit code; null for a broken promise of ours. */
export function sentenceOf(trouble: unknown): { readonly sentence: string; readonly exit: 1 | 2 } | null {
  if (trouble instanceof WrongCall) return { sentence: trouble.message, exit: 2 };
  if (trouble instanceof WrongData) return { sentence: trouble.message, exit: 1 };
  if (!(trouble instanceof TRPCError)) return null;
  if (trouble.cause instanceof z.ZodError)
    return {
      sentence: trouble.cause.issues.map(({ path, message }) => `${path.join(".")} ${message}`.trim()).join("; "),
      exit: 2,
    };
  if (trouble.code === "INTERNAL_SERVER_ERROR") return null;
  return { sentence: trouble.message, exit: trouble.code === "BAD_REQUEST" ? 2 : 1 };
}
