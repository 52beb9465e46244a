/**
 * How long pages take for others while a site lead has a log of 19,900 rows read, compared, counted, counted again with
 * other answers and taken back, over HTTP on the real program. Goals: p95 under twice that of an idle program on
 * PostgreSQL, under 300 ms on the embedded database.
 *
 * npx tsx tests/bench/meanwhile.ts [rows, 19900 by default: the most that is read is 20000 with the head] [embedded or postgres, both by default]
 */
import { backFile } from "./backFile";
import { p95, served } from "./served";

const rows = Number(process.argv[2] ?? 19_900);
const only = process.argv[3];
const IDLE_PAGES = 60;
const ASK_MS = 1000;
const LONGEST_MS = 300;

let missed = 0;
for (const database of ["embedded", "postgres"] as const)
  if (only === undefined || only === database) missed += await onDatabase(database);
process.exit(missed === 0 ? 0 : 1);

async function onDatabase(database: "embedded" | "postgres"): Promise<number> {
  const { address, headers, pages, meanwhile, heldMb, stop } = await served(database);
  await pages(20);
  const idle = p95(await pages(IDLE_PAGES));
  const goal = database === "postgres" ? 2 * idle : LONGEST_MS;
  console.log(`${database}: ${rows} rows; pages p95 ${idle.toFixed(0)} ms idle, to stay under ${goal.toFixed(0)} ms`);
  let over = 0;
  const during = async <T>(what: string, act: () => Promise<T>): Promise<T> => {
    const started = performance.now();
    const { answer, ms } = await meanwhile(act);
    const took = (performance.now() - started) / 1000;
    const isOver = p95(ms) > goal;
    if (isOver) over++;
    console.log(
      `  ${what}: ${took.toFixed(1)} s; ${ms.length} pages, p95 ${p95(ms).toFixed(0)} ms`,
      `(${(p95(ms) / idle).toFixed(2)} × idle), longest ${Math.max(...ms).toFixed(0)} ms${isOver ? ": OVER" : ""}`,
    );
    return answer;
  };

  /** Looks at a log as a page does, which asks again until it is read. */
  async function look(file: string): Promise<void> {
    for (;;) {
      const page = await (await fetch(`${address}/send/${file}`, { headers })).text();
      if (page.includes('role="alert"')) throw new Error("the log cannot be read");
      if (page.includes("What we understood of")) return;
      if (!page.includes("Under way"))
        throw new Error("the page of the log shows neither what is understood nor how far it is");
      await new Promise((later) => setTimeout(later, ASK_MS));
    }
  }
  async function arrive(text: string): Promise<string> {
    const form = new FormData();
    form.set("site", "OJ");
    form.set("log", new File([text], "back.csv", { type: "text/csv" }));
    const answer = await fetch(`${address}/send/arrive`, { method: "POST", body: form, headers, redirect: "manual" });
    const file = /\/send\/([0-9a-f-]{36})/.exec(answer.headers.get("location") ?? "")?.[1];
    if (file === undefined) throw new Error(`sending answered ${answer.status}`);
    return file;
  }
  async function ask(procedure: string, input: object): Promise<{ slip?: { batches: object } }> {
    const answer = await fetch(`${address}/api/trpc/${procedure}`, {
      method: "POST",
      headers: { ...headers, "content-type": "application/json" },
      body: JSON.stringify(input),
    });
    const said = (await answer.json()) as { result?: { data: { slip?: { batches: object } } } };
    if (said.result === undefined) throw new Error(`${procedure}: ${JSON.stringify(said).slice(0, 300)}`);
    return said.result.data;
  }
  const count = async (what: string, input: object) => {
    const answer = await during(what, () => ask("logs.count", input));
    if (answer.slip === undefined) throw new Error(`${what}: ${JSON.stringify(answer).slice(0, 300)}`);
    console.log(`    ${JSON.stringify(answer.slip.batches)}`);
  };

  const text = backFile(rows, 1).toString();
  const first = await arrive(text);
  const others = [await arrive(backFile(rows, 1, 6).toString()), await arrive(backFile(rows, 1, 12).toString())];
  await during("three of them read", async () => {
    for (const file of [first, ...others]) await look(file);
  });
  await count("counted", { file: first });
  const more = (line: string) => line.replace(/,(\d\.\d\d),/, (_, kg) => `,${(Number(kg) + 0.1).toFixed(2)},`);
  const lines = text.split("\n").map((line, at) => (at % 7 === 3 ? more(line) : line));
  const second = await arrive(lines.join("\n"));
  await during("read and compared with as many", () => look(second));
  await count("counted over the first", { file: second });
  const grams = { units: { "log!F": "min" }, meanings: { "log!G": "firewood" } };
  await count("counted again, every row otherwise", { file: second, again: true, answers: grams });
  await during("counted again three times, one row otherwise", async () => {
    for (const kg of ["4.44", "4.45", "4.46"]) {
      const one = { ...grams, cells: { "log!D5": `${kg} kg` } };
      const { slip } = await ask("logs.count", { file: second, again: true, answers: one });
      console.log(`    ${JSON.stringify(slip?.batches)}`);
    }
  });
  await during("taken back", () => ask("logs.withdraw", { file: second, reason: "the wrong one" }));
  console.log(`  ${heldMb().toFixed(0)} MB at most`);
  await stop();
  return over;
}
