import type { callerOf } from "#server/api/router";
import { addressOf, freshFolder, runStart, stopped } from "../setup/program";

const PASSWORD = "a calm evening by the jetty";

/** A page of the real server on a database, to be asked for by an officer; asking answers how many bytes came. */
export async function servedPage(
  api: ReturnType<typeof callerOf>,
  database: { readonly url: string; readonly ownerUrl: string },
  path: string,
): Promise<{ ask: () => Promise<number>; stop: () => Promise<void> }> {
  const { password } = await api.people.add({ name: "Marit Osei", role: "officer" });
  const folder = freshFolder();
  const server = runStart(["--port", "0"], {
    DATA_DIR: folder.path,
    DATABASE_URL: database.url,
    DATABASE_OWNER_URL: database.ownerUrl,
    WATCH_ALONG: "no", // years that came at once would be watched for minutes beside
  });
  const stop = async () => {
    await stopped(server);
    folder.remove();
  };
  try {
    const address = await addressOf(server);
    const first = await posted(address, "/sign-in/enter", { name: "Marit Osei", password });
    const cookie = await posted(address, "/password/set", { present: password, password: PASSWORD }, first);
    const ask = async () => {
      const answer = await fetch(`${address}${path}`, { headers: { cookie } });
      if (answer.status !== 200) throw new Error(`${path} answered ${answer.status}`);
      return (await answer.arrayBuffer()).byteLength;
    };
    return { ask, stop };
  } catch (trouble) {
    await stop();
    throw trouble;
  }
}

/** Posts a form as a page of ours would, and answers the cookie that it sets. */
async function posted(address: string, path: string, fields: Record<string, string>, cookie = ""): Promise<string> {
  const answer = await fetch(`${address}${path}`, {
    method: "POST",
    body: new URLSearchParams(fields),
    headers: { origin: address, cookie },
    redirect: "manual",
  });
  const [set = ""] = answer.headers.getSetCookie();
  if (answer.status !== 303) throw new Error(`${path} answered ${answer.status}`);
  return set.split(";")[0] ?? "";
}
