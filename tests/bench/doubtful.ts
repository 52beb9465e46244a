/**
 * Logs in which nearly every row is in doubt, sent to the real program by a site lead while somebody else opens pages:
 * how long it takes to read and to count each, how heavy its pages are, and how long the other waits at most. A page is
 * to stay under half a megabyte, and nobody is to wait longer than a second.
 *
 * npx tsx tests/bench/doubtful.ts [rows, 19900 by default] [postgres or embedded, postgres by default]
 */
import { DOUBTFUL, doubtfulLog } from "./doubtfulLogs";
import { served } from "./served";

const rows = Number(process.argv[2] ?? 19_900);
const { address, headers, pages, meanwhile, heldMb, stop } = await served(
  process.argv[3] === "embedded" ? "embedded" : "postgres",
);
const HEAVIEST_KB = 500;
const LONGEST_MS = 1000;
const ASK_MS = 200;

await pages(20);
let missed = 0;
for (const name of Object.keys(DOUBTFUL)) {
  const form = new FormData();
  form.set("site", "OJ");
  form.set("log", new File([doubtfulLog(name, rows)], "log.csv", { type: "text/csv" }));
  const said: string[] = [];
  let file = "";
  const during = async (what: string, act: () => Promise<number>) => {
    const started = performance.now();
    const { answer: kb, ms } = await meanwhile(act);
    const [took, longest] = [(performance.now() - started) / 1000, Math.max(...ms)];
    const isOver = kb > HEAVIEST_KB || longest > LONGEST_MS;
    if (isOver) missed++;
    said.push(
      `${what} ${took.toFixed(1)} s, ${kb.toFixed(0)} kB, waited ${longest.toFixed(0)} ms${isOver ? " OVER" : ""}`,
    );
  };
  await during("read", async () => {
    const answer = await fetch(`${address}/send/arrive`, { method: "POST", body: form, headers, redirect: "manual" });
    file = /\/send\/([0-9a-f-]{36})/.exec(answer.headers.get("location") ?? "")?.[1] ?? "";
    return page(`/send/${file}`);
  });
  await during("counted", async () => {
    const answer = await fetch(`${address}/api/trpc/logs.count`, {
      method: "POST",
      headers: { ...headers, "content-type": "application/json" },
      body: JSON.stringify({ file }),
    });
    if (!answer.ok) throw new Error(`${name}: ${await answer.text()}`);
    return page(`/slip/${file}`);
  });
  await during("looked at again", () => page(`/send/${file}`));
  console.log(`${name}: ${said.join("; ")}`);
}
console.log(`${heldMb().toFixed(0)} MB at most`);
await stop();
process.exit(missed === 0 ? 0 : 1);

/** How heavy a page is once it is there, kB. */
async function page(path: string): Promise<number> {
  for (;;) {
    const text = await (await fetch(`${address}${path}`, { headers })).text();
    if (!text.includes("Under way")) return Buffer.byteLength(text) / 1000;
    await new Promise((later) => setTimeout(later, ASK_MS));
  }
}
