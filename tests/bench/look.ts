// How long looking at a log of 1,000 rows takes before it counts, on a warm program with earlier logs of the site.
// Run: npx tsx tests/bench/look.ts
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { openStore } from "#db/client";
import { callerOf } from "#server/api/router";
import { begin } from "#server/jobs/begin";
import { OPERATOR } from "#server/terms/person";

const BOUNDS = { bytes: 2e7, unpackedBytes: 6e7, rows: 20_000, columns: 512, cellCharacters: 32_767, sheets: 40 };
const ROWS = 1000;

/** A month of many loads, dates open to both readings, no units: as much to ask as a log can have. */
function log(month: number, rows: number, settled: boolean): Uint8Array {
  const lines = Array.from({ length: rows }, (_, at) => {
    const day = 1 + (at % 12);
    const odd = at % 50 === 0 ? "abc" : (4.8 + (at % 9) / 10).toFixed(2);
    return `${day}/${month}/2031,${at + 1},${1 + (at % 4)},${odd},${(1.55 + (at % 7) / 50).toFixed(2)},${75 + (at % 20)},1.4`;
  });
  const heading = settled ? "Date,No,Pan,Wet (kg),Dry (kg),Minutes,Gas (kg)" : "Date,No,Pan,Wet,Dry,Minutes,Gas";
  return new TextEncoder().encode(`${[heading, ...lines].join("\n")}\n`);
}

const dataDir = mkdtempSync(join(tmpdir(), "evendry-look-"));
const store = await openStore({ dataDir, databaseUrl: null, databaseOwnerUrl: null });
await begin(store, () => new Date("2031-01-01T06:00:00Z"));
const api = callerOf({ store, person: OPERATOR, clock: () => new Date("2031-12-01T08:00:00Z"), bounds: BOUNDS });
await api.sites.open({ code: "OJ", declarations: [{ kind: "open", from: "2031-01-01", value: {} }] });
for (let month = 1; month <= 6; month++) {
  await api.logs.send({ site: "OJ", bytes: log(month, 100, true), name: `${month}.csv`, answers: { dayOrder: "dmy" } });
}
for (const { said, settled, answers } of [
  { said: "nothing to ask", settled: true, answers: { dayOrder: "dmy" as const } },
  { said: "order of dates and every unit to ask", settled: false, answers: { alone: true } },
]) {
  const { file } = await api.logs.arrive({ site: "OJ", bytes: log(7, ROWS, settled), name: "july.csv" });
  const times: number[] = [];
  for (let turn = 0; turn < 9; turn++) {
    const from = performance.now();
    await Promise.all([api.logs.understood({ file, answers }), api.sent.difference({ file, answers })]);
    times.push(performance.now() - from);
  }
  const [first = 0, ...warm] = times;
  const middle = warm.sort((a, b) => a - b)[Math.floor(warm.length / 2)] ?? 0;
  console.log(`looking at ${ROWS} rows, ${said}: ${middle.toFixed(0)} ms (first ${first.toFixed(0)} ms)`);
}
await store.close();
rmSync(dataDir, { recursive: true, force: true });
process.exit(0);
