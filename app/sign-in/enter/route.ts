import { signInWith } from "#server/api/request";
import { goBack, goTo } from "../../note";
import { ownPath } from "../../ownPath";
import { addressOf, textsOf } from "../../posted";
import { isEncrypted, sessionHeader } from "../../sessionCookie";

const WRONG = "Name and password do not belong together. Type both once more, or ask for a code.";
const TOO_MANY = "There were too many tries. Wait a quarter of an hour, or ask your programme officer for a code.";

export async function POST(request: Request): Promise<Response> {
  const { name = "", password = "", to } = textsOf(await request.formData());
  const back = `/sign-in?to=${encodeURIComponent(ownPath(to))}`;
  if (name.trim() === "" || password === "") {
    return goBack(request, back, { typed: { name }, wrong: { name: "Type your name and your password." } });
  }
  const entered = await signInWith(name.trim(), password, addressOf(request));
  if ("refused" in entered) {
    return goBack(request, back, { typed: { name }, wrong: { name: entered.refused === "wrong" ? WRONG : TOO_MANY } });
  }
  const cookie = sessionHeader(isEncrypted(request.headers), entered.token, entered.until);
  return goTo(entered.mustChange ? "/password" : ownPath(to), [cookie]);
}
