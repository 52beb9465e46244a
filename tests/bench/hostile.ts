/**
 * Sends a folder of hostile and awkward files to the real server over HTTP, as a site lead does, while somebody else
 * opens pages: what becomes of each file beside what its manifest expects, how long each took, how long the pages took
 * beside an idle server, and the most memory held. The corpus is no part of the project, so it is named.
 *
 * npx tsx tests/bench/hostile.ts MANIFEST.json FOLDER [postgres]
 */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Reading, Unreadable } from "#server/terms/row";
import { p95, served } from "./served";

interface Expected {
  readonly file: string;
  readonly app: { readonly outcome: string; readonly accept?: number; readonly dataRows?: number };
}

const [manifest = "", corpus = "", on] = process.argv.slice(2);
const database = on === "postgres" ? "postgres" : "embedded";
const files = (JSON.parse(readFileSync(manifest, "utf8")) as { files: Expected[] }).files.filter(
  ({ file }) => file !== null, // made anew elsewhere
);
const IDLE_PAGES = 60;
const LONGEST = (bytes: number) => (bytes > 1e6 ? 5000 : 2000);

const { address, headers, pages, meanwhile, heldMb, stop } = await served(database);
await pages(20);
const idle = await pages(IDLE_PAGES);
const deviations: string[] = [];
const slow: string[] = [];
let longest = 0;
const { ms: busy } = await meanwhile(async () => {
  for (const { file, app } of files) {
    const bytes = readFileSync(join(corpus, file));
    const { become, ms } = await send(bytes, file);
    longest = Math.max(longest, ms);
    if (ms > LONGEST(bytes.length)) slow.push(`${file} ${ms.toFixed(0)} ms`);
    const deviation = deviates(app, become);
    if (deviation !== null)
      deviations.push(`${file}: expected ${JSON.stringify({ ...app, rows: undefined })}, ${deviation}`);
  }
});
console.log(deviations.join("\n"));
console.log(`too slow: ${slow.join(", ") || "none"}`);
console.log(
  `${files.length} files on ${database}: ${files.length - deviations.length} as expected, longest ${longest.toFixed(0)} ms;`,
  `pages p95 ${p95(idle).toFixed(0)} ms idle, ${p95(busy).toFixed(0)} ms meanwhile (${(p95(busy) / p95(idle)).toFixed(2)} ×); ${heldMb().toFixed(0)} MB at most`,
);
await stop();

/**
 * What the server makes of a file: refused in a sentence before it is kept, refused on reading, or read; and how long it
 * took until a page showed that. Its rows are asked for once more, to be laid beside the manifest.
 */
async function send(bytes: Buffer, name: string): Promise<{ become: Reading | Unreadable; ms: number }> {
  const started = performance.now();
  const form = new FormData();
  form.set("site", "OJ");
  form.set("log", new File([new Uint8Array(bytes)], name.split("/").at(-1) ?? name));
  const answer = await fetch(`${address}/send/arrive`, { method: "POST", body: form, headers, redirect: "manual" });
  const to = answer.headers.get("location") ?? "";
  if (answer.status >= 500) throw new Error(`${name}: ${answer.status}`);
  const file = /\/send\/([0-9a-f-]{36})/.exec(to)?.[1];
  if (file === undefined) {
    const ms = performance.now() - started;
    return { become: { refused: "empty-file", detail: `${answer.status} ${to}` }, ms };
  }
  for (let isThere = false; !isThere; ) {
    const page = await fetch(`${address}/send/${file}`, { headers });
    if (page.status !== 200) throw new Error(`${name}: its page answered ${page.status}`);
    isThere = !(await page.text()).includes("Under way");
  }
  const ms = performance.now() - started;
  const input = encodeURIComponent(JSON.stringify({ file }));
  const read = await fetch(`${address}/api/trpc/logs.understood?input=${input}`, { headers });
  const { result } = (await read.json()) as { result: { data: Reading | Unreadable } };
  return { become: result.data, ms };
}

/** How an outcome differs from what is expected; null where it does not. */
function deviates({ outcome, accept }: Expected["app"], become: Reading | Unreadable): string | null {
  const allowed = outcome.split("|");
  if ("refused" in become) return allowed.includes("reject") ? null : `refused as ${become.refused} ${become.detail}`;
  const { counted, held: waiting } = become.counts;
  const told = `${counted} counted, ${waiting} held, ${become.questions.length} questions`;
  if (counted === 0 && allowed.includes("reject")) return null;
  if (!allowed.some((one) => one.startsWith("accept"))) return told;
  if (allowed.includes("accept_flagged")) return counted + waiting > 0 ? null : told;
  return accept === undefined ? (counted > 0 ? null : told) : counted === accept ? null : told;
}
