export const PASSWORD = "a calm evening by the jetty";

/** The cookie of somebody who signs in with the password they were given and sets an own one, as a browser without script does. */
export async function signedInAs(address: string, name: string, given: string): Promise<string> {
  const first = await post(address, "/sign-in/enter", { name, password: given });
  return post(address, "/password/set", { present: given, password: PASSWORD }, first);
}

/** Posts a form as a page of ours would, and answers the cookie that it sets. */
async function post(address: string, path: string, fields: Record<string, string>, cookie = ""): Promise<string> {
  const answer = await fetch(`${address}${path}`, {
    method: "POST",
    body: new URLSearchParams(fields),
    headers: { origin: address, cookie },
    redirect: "manual",
  });
  const [set = ""] = answer.headers.getSetCookie();
  if (answer.status !== 303 || !set.startsWith("evendry=")) throw new Error(`${path} answered ${answer.status} ${set}`);
  return set.split(";")[0] ?? "";
}
