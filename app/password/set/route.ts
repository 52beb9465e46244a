import { setPassword } from "#server/api/request";
import { goBack, goTo } from "../../note";
import { sessionOf, textsOf } from "../../posted";
import { isEncrypted, sessionHeader } from "../../sessionCookie";

export async function POST(request: Request): Promise<Response> {
  const { present = "", password = "" } = textsOf(await request.formData());
  const token = await sessionOf(request);
  const set = token === undefined ? undefined : await setPassword(token, present, password);
  if (set === undefined) return goTo("/sign-in");
  if ("sentence" in set) {
    const field = set.sentence.startsWith("The present") ? "present" : "password";
    return goBack(request, "/password", { wrong: { [field]: set.sentence } });
  }
  return goTo("/", [sessionHeader(isEncrypted(request.headers), set.token, set.until)]);
}
