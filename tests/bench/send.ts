// Seconds and memory of sending a log of many rows, as CSV and as XLSX, on the embedded database and on PostgreSQL.
// npx tsx tests/bench/send.ts ROWS [DATABASE_URL DATABASE_OWNER_URL]
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { writeXlsx } from "hucre";
import { openStore } from "#db/client";
import { callerOf } from "#server/api/router";
import { begin } from "#server/jobs/begin";
import { OPERATOR } from "#server/terms/person";

const [count = "10000", databaseUrl, databaseOwnerUrl] = process.argv.slice(2);
const HEADING = ["Date", "Batch no", "Pan", "Fresh (kg)", "Dried (kg)", "Minutes", "Firewood (kg)", "By"];

function line(i: number): (string | number)[] {
  const day = new Date(Date.UTC(2029, 0, 1) + Math.floor(i / 20) * 86_400_000).toISOString().slice(0, 10);
  const fresh = 1 + ((i * 7) % 40) / 100;
  return [
    day,
    i + 1,
    1 + (i % 3),
    fresh.toFixed(2),
    (fresh * (0.3 + (i % 9) / 200)).toFixed(3),
    15 + (i % 6),
    1.1,
    "Amara",
  ];
}

const lines = Array.from({ length: Number(count) }, (_, i) => line(i));
const csv = new TextEncoder().encode([HEADING, ...lines].map((cells) => cells.join(",")).join("\n"));
const typed = lines.map((cells) => cells.map((cell, i) => (i > 2 && i < 5 ? Number(cell) : cell)));
const xlsx = new Uint8Array(await writeXlsx({ sheets: [{ name: "Log", rows: [HEADING, ...typed] }] }));

const dataDir = mkdtempSync(join(tmpdir(), "evendry-bench-"));
const store = await openStore({
  dataDir,
  databaseUrl: databaseUrl ?? null,
  databaseOwnerUrl: databaseOwnerUrl ?? null,
});
await begin(store, () => new Date());
const bounds = {
  bytes: 64 * 2 ** 20,
  unpackedBytes: 256 * 2 ** 20,
  rows: 2_000_000,
  columns: 512,
  cellCharacters: 32_767,
  sheets: 40,
};
const api = callerOf({ store, person: OPERATOR, clock: () => new Date("2031-01-01T00:00:00Z"), bounds });
for (const [name, bytes] of [
  ["CSV", csv],
  ["XLSX", xlsx],
] as const) {
  const code = `${name}${Date.now()}`;
  await api.sites.open({
    code,
    declarations: [
      { kind: "open", from: "2029-01-01", value: {} },
      { kind: "method", from: "2029-01-01", value: { method: "sand-pan" } },
      { kind: "numbering", from: "2029-01-01", value: { unique: "site" } },
    ],
  });
  const began = performance.now();
  const sending = await api.logs.send({ site: code, bytes, name: `log.${name.toLowerCase()}` });
  const seconds = ((performance.now() - began) / 1000).toFixed(2);
  const peak = (process.resourceUsage().maxRSS / 1024).toFixed(0);
  console.log(
    `${store.kind} ${name} ${count} rows: ${seconds} s, peak ${peak} MB`,
    "slip" in sending ? sending.slip.rows : sending,
  );
}
await store.close();
rmSync(dataDir, { recursive: true, force: true });
