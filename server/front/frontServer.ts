import { randomBytes } from "node:crypto";
import { createServer, type IncomingMessage, type Server, type ServerResponse } from "node:http";
import type { Settings } from "../settings";
import { wordsWhenBroken } from "./brokenAnswer";
import { whileAnswering } from "./currentAnswer";
import { cleanHeaders, contentPolicy, guardHeaders } from "./headers";
import { refusal } from "./refusal";

const MINUTE = 60_000;

/** How long a turned-away sender may go on sending into the void, so that it gets to read why. */
const DRAIN = 20_000;

export type Answering = (request: IncomingMessage, response: ServerResponse) => Promise<void>;

/** The server that stands before the pages: it guards, they answer. */
export function frontServer(
  settings: Pick<Settings, "bounds" | "trustedProxy">,
  developing: boolean,
  answer: Answering,
): Server {
  // A 10 MiB log over a phone line of 20 kB/s takes nine minutes.
  const server = createServer({ requestTimeout: 15 * MINUTE, headersTimeout: MINUTE }, (request, response) => {
    const policy = contentPolicy(randomBytes(18).toString("base64"), developing);
    cleanHeaders(request.headers, policy, settings.trustedProxy);
    const encrypted = request.headers["x-forwarded-proto"] === "https";
    response.setHeader("content-security-policy", policy);
    if (!server.listening) response.setHeader("connection", "close"); // we are stopping: the last answer on this line
    for (const [name, value] of Object.entries(guardHeaders(request.url ?? "/", encrypted)))
      response.setHeader(name, value);
    const refused = refusal(request.method ?? "", request.headers, settings.bounds.bytes);
    if (refused !== null) {
      turnAway(request, response, refused.status, refused.sentence);
      return;
    }
    wordsWhenBroken(request, response);
    whileAnswering(response, () => answer(request, response)).catch((trouble: unknown) => {
      console.error(trouble);
      if (!response.headersSent) response.statusCode = 500;
      response.end();
    });
  });
  if (!developing)
    server.on("upgrade", (_request, socket) => socket.end("HTTP/1.1 400 Bad Request\r\nconnection: close\r\n\r\n"));
  return server;
}

function turnAway(request: IncomingMessage, response: ServerResponse, status: number, sentence: string): void {
  response.writeHead(status, { "content-type": "text/plain; charset=utf-8", connection: "close" });
  response.end(`${sentence}\n`);
  request.resume();
  const impatient = setTimeout(() => request.destroy(), DRAIN);
  request.on("close", () => clearTimeout(impatient));
}
