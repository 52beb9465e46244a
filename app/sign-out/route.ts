import { endSession } from "#server/api/request";
import { goTo } from "../note";
import { sessionOf } from "../posted";
import { isEncrypted, sessionHeader } from "../sessionCookie";

/** Ends the session here and in the browser, which also forgets what pages it kept. */
export async function POST(request: Request): Promise<Response> {
  const token = await sessionOf(request);
  if (token !== undefined) await endSession(token);
  const answer = goTo("/sign-in", [sessionHeader(isEncrypted(request.headers), null, null)]);
  if (isEncrypted(request.headers)) answer.headers.set("clear-site-data", '"cache", "storage"');
  return answer;
}
