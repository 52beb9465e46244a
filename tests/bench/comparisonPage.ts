import type { callerOf } from "#server/api/router";
import { addressOf, freshFolder, runStart, stopped } from "../setup/program";
import { signedInAs } from "../setup/signedIn";

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
    const cookie = await signedInAs(address, "Marit Osei", password);
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
