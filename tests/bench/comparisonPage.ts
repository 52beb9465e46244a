import type { callerOf } from "#server/api/router";
import { addressOf, freshFolder, runStart, stopped } from "../setup/program";

const ROUNDS = 21;
const PASSWORD = "a calm evening by the jetty";

/** How long the real server takes for a page's whole HTML on a database, asked by an officer, one request after another. */
export async function pageTimes(
  api: ReturnType<typeof callerOf>,
  database: { readonly url: string; readonly ownerUrl: string },
  path: string,
): Promise<{ median: number; p95: number; bytes: number }> {
  const { password } = await api.people.add({ name: "Marit Osei", role: "officer" });
  const folder = freshFolder();
  const server = runStart(["--port", "0"], {
    DATA_DIR: folder.path,
    DATABASE_URL: database.url,
    DATABASE_OWNER_URL: database.ownerUrl,
  });
  try {
    const address = await addressOf(server);
    const first = await posted(address, "/sign-in/enter", { name: "Marit Osei", password });
    const cookie = await posted(address, "/password/set", { present: password, password: PASSWORD }, first);
    const times: number[] = [];
    let bytes = 0;
    for (let round = -2; round < ROUNDS; round++) {
      const began = performance.now();
      const answer = await fetch(`${address}${path}`, { headers: { cookie } });
      bytes = (await answer.arrayBuffer()).byteLength;
      if (answer.status !== 200) throw new Error(`${path} answered ${answer.status}`);
      if (round >= 0) times.push(performance.now() - began);
    }
    times.sort((a, b) => a - b);
    const [median, p95] = [0.5, 0.95].map((share) => times[Math.floor(times.length * share)] ?? Number.NaN);
    return { median: median ?? Number.NaN, p95: p95 ?? Number.NaN, bytes };
  } finally {
    await stopped(server);
    folder.remove();
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
