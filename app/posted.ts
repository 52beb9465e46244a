import { TRPCError } from "@trpc/server";
import { cookies } from "next/headers";
import type { z } from "zod";
import { complaintsIn } from "#server/api/plainChecks";
import { whoAsks } from "./asking";
import { goTo } from "./note";
import { isEncrypted, sessionCookie } from "./sessionCookie";

/** The form that a request carries. What is none, or was cut off on the way, is answered with a sentence. */
export async function formOf(request: Request): Promise<FormData> {
  try {
    return await request.formData();
  } catch {
    throw new TRPCError({ code: "BAD_REQUEST", message: "The form did not arrive whole. Go back and send it again." });
  }
}

/** The plain texts of a form; files are left out. */
export function textsOf(form: FormData): Record<string, string> {
  return Object.fromEntries([...form].flatMap(([name, value]) => (typeof value === "string" ? [[name, value]] : [])));
}

/** Whence a request came, as the connection or our own proxy says. */
export function addressOf(request: Request): string {
  return request.headers.get("x-forwarded-for")?.split(",").at(-1)?.trim() ?? "unknown";
}

export async function sessionOf(request: Request): Promise<string | undefined> {
  return (await cookies()).get(sessionCookie(isEncrypted(request.headers)))?.value;
}

/** Does what a form asks as whoever has signed in; anybody else is sent to sign in. */
export async function asSignedIn(
  act: (asked: Awaited<ReturnType<typeof whoAsks>>["api"]) => Promise<Response>,
): Promise<Response> {
  const { api, person, mustChange } = await whoAsks();
  if (mustChange) return goTo("/password");
  if (person === null) return goTo("/sign-in");
  try {
    return await act(api);
  } catch (trouble) {
    if (trouble instanceof TRPCError && ["NOT_FOUND", "FORBIDDEN"].includes(trouble.code))
      return new Response("There is nothing here.\n", { status: 404 });
    const sentence = complaintOf(trouble);
    if (sentence !== null) return new Response(`${sentence}\n`, { status: 400 });
    throw trouble;
  }
}

/** What a procedure found wrong with what it was given, in sentences; null for anything else that went wrong. */
export function complaintOf(trouble: unknown): string | null {
  if (!isRefusal(trouble) || !["BAD_REQUEST", "CLIENT_CLOSED_REQUEST"].includes(trouble.code)) return null;
  return isOfChecker(trouble.cause) ? complaintsIn(trouble.cause) : trouble.message;
}

/** By its name, not by its class: what a route began, a page may wait for, and the two have classes of their own. */
function isRefusal(trouble: unknown): trouble is TRPCError {
  return trouble instanceof Error && trouble.name === "TRPCError" && "code" in trouble;
}

function isOfChecker(cause: unknown): cause is z.core.$ZodError {
  return typeof cause === "object" && cause !== null && "issues" in cause && Array.isArray(cause.issues);
}

/** True where somebody stopped what was under way. */
export function wasStopped(trouble: unknown): boolean {
  return isRefusal(trouble) && trouble.code === "CLIENT_CLOSED_REQUEST";
}
