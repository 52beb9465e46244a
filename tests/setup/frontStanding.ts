import { once } from "node:events";
import { onTestFinished } from "vitest";
import { type Answering, frontServer } from "#server/front/frontServer";
import { readSettings } from "#server/settings";

/** A front server before a page, until the test ends; answers its port. */
export async function frontStanding(page: Answering): Promise<number> {
  const server = frontServer(readSettings({}), false, page);
  server.listen(0, "127.0.0.1");
  await once(server, "listening");
  onTestFinished(() => void server.close());
  const bound = server.address();
  if (bound === null || typeof bound === "string") throw new Error("no port");
  return bound.port;
}
