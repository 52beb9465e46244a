import { once } from "node:events";
import { request } from "node:http";
import { connect } from "node:net";
import { expect, onTestFinished, test, vi } from "vitest";
import type { Answering } from "#server/front/frontServer";
import { frontStanding } from "../setup/frontStanding";

const MIB = 2 ** 20;

const tellingWhatItGot: Answering = async (asked, answer) => {
  let bytes = 0;
  for await (const piece of asked) bytes += piece.length;
  answer.end(JSON.stringify({ bytes, policy: asked.headers["content-security-policy"] }));
};

/** A front server before a page, which tells what it got unless another is given. */
const standing = (page = tellingWhatItGot) => frontStanding(page);

/** Sends with headers that a browser would not let a page set. */
function send(port: number, headers: Record<string, string | number>, body: Buffer) {
  return new Promise<{ status: number; text: string; headers: Record<string, unknown> }>((done, failed) => {
    const asking = request({ port, host: "127.0.0.1", method: "POST", path: "/x", headers }, (answer) => {
      let text = "";
      answer.on("data", (piece) => (text += piece));
      answer.on("end", () => done({ status: answer.statusCode ?? 0, text, headers: answer.headers }));
    });
    asking.on("error", failed);
    asking.end(body);
  });
}

test("a page is told the same fresh nonce as the browser, whatever the client says", async () => {
  const port = await standing();
  const nonces = new Set<string>();
  for (let time = 0; time < 3; time++) {
    const answer = await fetch(`http://127.0.0.1:${port}/`, {
      headers: { "content-security-policy": "script-src 'nonce-evil'" },
    });
    const told = JSON.parse(await answer.text()).policy;
    expect(told).toBe(answer.headers.get("content-security-policy"));
    nonces.add(/nonce-([^']+)/.exec(told)?.[1] ?? "");
  }
  expect(nonces.size).toBe(3);
  for (const nonce of nonces) expect(Buffer.from(nonce, "base64").length).toBeGreaterThanOrEqual(16);
});

test("a file as large as allowed arrives whole, with the form around it", async () => {
  const port = await standing();
  const body = Buffer.alloc(10 * MIB + 2000, 7);
  const answer = await send(port, { "sec-fetch-site": "same-origin", "content-length": body.length }, body);
  expect(answer).toMatchObject({ status: 200 });
  expect(JSON.parse(answer.text).bytes).toBe(body.length);
});

test("a larger one is turned away in words while it is still being sent", async () => {
  const port = await standing();
  const body = Buffer.alloc(12 * MIB);
  const answer = await send(port, { "sec-fetch-site": "same-origin", "content-length": body.length }, body);
  expect(answer.status).toBe(413);
  expect(answer.text).toMatch(/^This is larger than 10 MiB.*\.\n$/);
  expect(answer.headers["x-content-type-options"]).toBe("nosniff");
});

test("a connection that wants to become something else is closed", async () => {
  const port = await standing();
  const socket = connect(port, "127.0.0.1");
  socket.write("GET / HTTP/1.1\r\nHost: a\r\nConnection: Upgrade\r\nUpgrade: websocket\r\n\r\n");
  let text = "";
  socket.on("data", (piece) => (text += piece));
  await once(socket, "close");
  expect(text).toMatch(/^HTTP\/1\.1 400 /);
});

test.each<{ how: string; page: Answering }>([
  {
    how: "throws",
    page: async () => {
      throw new Error("the table batches is gone");
    },
  },
  {
    how: "is answered as the page server does, an empty page piece by piece",
    page: async (_asked, answer) => {
      answer.statusCode = 500;
      answer.setHeader("content-type", "text/html; charset=utf-8");
      answer.setHeader("content-encoding", "gzip");
      answer.flushHeaders();
      await new Promise<void>((written) => answer.write("<html id=broken>", () => written()));
      await new Promise<void>((ended) => answer.end("</html>", ended));
    },
  },
  {
    how: "is answered with nothing",
    page: async (_asked, answer) => void answer.writeHead(500).end(),
  },
])("a page that $how says in words what to do, and nothing of our insides", async ({ page }) => {
  const noted = vi.spyOn(console, "error").mockImplementation(() => {});
  onTestFinished(() => noted.mockRestore());
  const answer = await fetch(`http://127.0.0.1:${await standing(page)}/compare`, { headers: { accept: "text/html" } });
  expect(answer.status).toBe(500);
  expect(answer.headers.get("content-type")).toBe("text/html; charset=utf-8");
  expect(answer.headers.get("content-security-policy")).toContain("default-src 'none'");
  const text = await answer.text();
  expect(text).toContain("<h1>Something broke on our side</h1>");
  expect(text).toContain("try again in a minute");
  expect(text).not.toMatch(/batches is gone|id=broken|\.ts\b|<script/);
});

test("what has begun to be sent goes on, and an answer for a program stays what it is", async () => {
  const begun = await standing(async (_asked, answer) => {
    answer.setHeader("content-type", "text/html");
    answer.write("<p>first");
    answer.statusCode = 500;
    answer.end(", second");
  });
  const streamed = await fetch(`http://127.0.0.1:${begun}/`);
  expect(streamed.status).toBe(200);
  expect(await streamed.text()).toBe("<p>first, second");
  const refusing = await standing(async (_asked, answer) => {
    answer.writeHead(500, { "content-type": "application/json" });
    answer.end('{"error":1}');
  });
  expect(await (await fetch(`http://127.0.0.1:${refusing}/api/trpc/x`)).json()).toEqual({ error: 1 });
});
