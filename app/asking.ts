import { TRPCError } from "@trpc/server";
import { cookies, headers } from "next/headers";
import { redirect } from "next/navigation";
import { cache } from "react";
import { type Api, type Asked, callerFor } from "#server/api/request";
import { isEncrypted, sessionCookie } from "./sessionCookie";

/** Who a person is to the pages. */
export type Me = Awaited<ReturnType<Api["people"]["me"]>>;

/** Whoever asks for this page, looked up once a page. */
export const whoAsks = cache(async (): Promise<Asked> => {
  const name = sessionCookie(isEncrypted(await headers()));
  return callerFor((await cookies()).get(name)?.value);
});

export const meOrNobody = cache(async (): Promise<Me | null> => {
  const { person, api } = await whoAsks();
  return person === null ? null : api.people.me();
});

/** How many changes wait for an answer; 0 for nobody. Asked for once a page. */
export const waitingSignals = cache(async (): Promise<number> => {
  const { person, api } = await whoAsks();
  return person === null ? 0 : api.signals.waiting();
});

/** Whoever has signed in; anybody else is sent to do so first, and then to `here`. */
export async function signedIn(here: string): Promise<{ readonly api: Api; readonly me: Me }> {
  const { api, mustChange } = await whoAsks();
  if (mustChange) redirect("/password");
  const me = await meOrNobody();
  if (me === null) redirect(here === "/" ? "/sign-in" : `/sign-in?to=${encodeURIComponent(here)}`);
  return { api, me };
}

/** What was asked for; null for what does not exist and for what this person may not see, which are answered alike. */
export async function orNothing<T>(asked: Promise<T>): Promise<T | null> {
  try {
    return await asked;
  } catch (trouble) {
    if (trouble instanceof TRPCError && ["NOT_FOUND", "FORBIDDEN"].includes(trouble.code)) return null;
    throw trouble;
  }
}
