import type { IncomingMessage, ServerResponse } from "node:http";

/** Needs neither a script nor a style of ours: those come from the server that has just failed. */
const PAGE = `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>Something broke on our side</title>
</head>
<body>
<main>
<h1>Something broke on our side</h1>
<p>Nothing that was stored is lost. Go back and try again in a minute; what is sent twice is counted once.</p>
<p>If it breaks again, tell whoever runs Evendry here what you did and at what time: the machine has kept a note of it.</p>
<p><a href="/">Go to the first page</a></p>
</main>
</body>
</html>
`;

/**
 * Lets a failure speak: a page that is answered with 500 or more gets words of ours in place of its body, which would be
 * empty without script.
 *
 * It is decided when the headers go out, so what has begun to be sent goes on as it was. Answers for programs, which say
 * that they are no page, stay as they are.
 */
export function wordsWhenBroken(request: IncomingMessage, response: ServerResponse): void {
  let broken = false;
  const begin = () => {
    if (response.statusCode >= 500 && !response.headersSent) response.writeHead(response.statusCode);
  };
  response.writeHead = new Proxy(response.writeHead, {
    apply(sendHead, _self, said: unknown[]) {
      const status = Number(said[0]);
      if (response.headersSent || status < 500 || !isPage(request, typeNow(response, said)))
        return Reflect.apply(sendHead, response, said);
      broken = true;
      for (const name of ["content-encoding", "transfer-encoding", "etag", "link"]) response.removeHeader(name);
      response.setHeader("content-type", "text/html; charset=utf-8");
      response.setHeader("content-length", Buffer.byteLength(PAGE));
      response.setHeader("cache-control", "private, no-store");
      return Reflect.apply(sendHead, response, [status]);
    },
  });
  response.write = new Proxy(response.write, {
    apply(write, _self, piece: unknown[]) {
      begin();
      if (!broken) return Reflect.apply(write, response, piece);
      told(piece);
      return true;
    },
  });
  response.end = new Proxy(response.end, {
    apply(end, _self, last: unknown[]) {
      begin();
      return Reflect.apply(end, response, broken ? [PAGE, "utf8", () => told(last)] : last);
    },
  });
}

/** Tells whoever writes that the piece is dealt with. */
function told(given: readonly unknown[]): void {
  const then = given.at(-1);
  if (typeof then === "function") then();
}

/** An answer that says it is a page, or says nothing to somebody who would read one. */
function isPage(request: IncomingMessage, type: string | null): boolean {
  if (type !== null) return type.startsWith("text/html");
  return /text\/html|\*\/\*/.test(request.headers.accept ?? "*/*");
}

/** What the answer says that it is, with its headers or with those that go out now; null where it does not say. */
function typeNow(response: ServerResponse, said: readonly unknown[]): string | null {
  const given = said.at(-1);
  const now = typeof given === "object" && given !== null ? Object.entries(given) : [];
  const [, type] = now.find(([name]) => name.toLowerCase() === "content-type") ?? [];
  return typeof type === "string" ? type : (response.getHeader("content-type")?.toString() ?? null);
}
