import { signInWithCode } from "#server/api/request";
import { goBack, goTo } from "../../note";
import { addressOf, textsOf } from "../../posted";
import { isEncrypted, sessionHeader } from "../../sessionCookie";

const WRONG = "Name and code do not belong together, or the code was used or is older than a day. Ask for a new one.";
const TOO_MANY = "There were too many tries. Wait a quarter of an hour.";

export async function POST(request: Request): Promise<Response> {
  const { name = "", code = "", password = "" } = textsOf(await request.formData());
  const typed = { name };
  const entered = await signInWithCode(name.trim(), code.trim(), password, addressOf(request));
  if ("weak" in entered) return goBack(request, "/sign-in/code", { typed, wrong: { password: entered.weak } });
  if ("refused" in entered) {
    return goBack(request, "/sign-in/code", { typed, wrong: { code: entered.refused === "wrong" ? WRONG : TOO_MANY } });
  }
  return goTo("/", [sessionHeader(isEncrypted(request.headers), entered.token, entered.until)]);
}
