import { fetchRequestHandler } from "@trpc/server/adapters/fetch";
import { contextFor } from "#server/api/request";
import { appRouter } from "#server/api/router";
import { sessionOf } from "../../../posted";

const TOGETHER = 10;

/** Our procedures for our own pages: what changes something comes as JSON, and few calls at once. */
async function answer(request: Request): Promise<Response> {
  if (request.method === "POST" && !request.headers.get("content-type")?.startsWith("application/json"))
    return new Response("Only JSON is taken here.\n", { status: 415 });
  return fetchRequestHandler({
    req: request,
    endpoint: "/api/trpc",
    router: appRouter,
    maxBatchSize: TOGETHER,
    createContext: async () => contextFor(await sessionOf(request)),
    onError: ({ error }) => {
      if (error.code === "INTERNAL_SERVER_ERROR") console.error(error.cause ?? error);
    },
  });
}

export { answer as GET, answer as POST };
