import { randomBytes } from "node:crypto";
import { cookies } from "next/headers";
import { z } from "zod";
import { isEncrypted } from "./sessionCookie";

/**
 * What one answer leaves for the page that the browser is sent to: what was typed, what is wrong with it, what came of it.
 *
 * It travels in a cookie of two minutes, so that a form works without script, forgets nothing that was typed, and the
 * address stays free of it. A page reads it only when its address names it. Passwords that were typed never go in.
 */
const note = z.object({
  id: z.string(),
  typed: z.record(z.string(), z.string()).default({}),
  wrong: z.record(z.string(), z.string()).default({}),
  told: z.record(z.string(), z.string()).default({}),
});
export type Note = z.infer<typeof note>;

const COOKIE = "evendry-note";
const LONGEST = 3000;
const EMPTY: Note = { id: "", typed: {}, wrong: {}, told: {} };

/** The note that this page's address names; an empty one where it names none. */
export async function noteFor(id: string | string[] | undefined): Promise<Note> {
  const kept = (await cookies()).get(COOKIE)?.value;
  if (typeof id !== "string" || kept === undefined) return EMPTY;
  try {
    const read = note.safeParse(JSON.parse(Buffer.from(kept, "base64url").toString("utf8")));
    return read.success && read.data.id === id ? read.data : EMPTY;
  } catch {
    return EMPTY; // whoever writes cookies by hand gets no note
  }
}

/** Sends the browser on with GET. */
export function goTo(path: string, headers: readonly string[] = []): Response {
  const answer = new Response(null, { status: 303, headers: { location: path } });
  for (const cookie of headers) answer.headers.append("set-cookie", cookie);
  return answer;
}

/** Sends the browser back to a form with what was typed and what is wrong with it. */
export function goBack(request: Request, path: string, left: Partial<Omit<Note, "id">>): Response {
  const id = randomBytes(6).toString("base64url");
  const whole = Buffer.from(JSON.stringify({ id, ...left })).toString("base64url");
  const value =
    whole.length <= LONGEST ? whole : Buffer.from(JSON.stringify({ id, ...left, typed: {} })).toString("base64url");
  const secure = isEncrypted(request.headers) ? "; Secure" : "";
  const mark = path.includes("?") ? "&" : "?";
  return goTo(`${path}${mark}note=${id}${left.wrong === undefined ? "" : "#wrong"}`, [
    `${COOKIE}=${value}; Path=/; HttpOnly; SameSite=Lax; Max-Age=120${secure}`,
  ]);
}
