/**
 * How long storing takes, on PostgreSQL, beside COPY of the same bytes: rows, links, batches, sums, fuel and sealed cells
 * of a log are written and hashed, and its record is appended and committed. Goal: at most 2 × the time. Beside it what
 * that takes of processors, of this process and of the database together, which work side by side; and the same with
 * planning: matching the rows, finding fuel, adding up, and all that is asked of the database before. Medians of the
 * rounds, taken in turn.
 *
 * The yardstick puts every row that was written then into the same eleven tables of a second database on the same server,
 * in the order in which they were added; the original's bytes are kept before that, on both sides uncounted. It
 * has the same indexes, constraints and triggers, the one that keeps `month_latest` among them, and commits once. It is
 * spared what only a log sent in has: row-level security (a superuser copies), the way from here to the server (that
 * reads files of its own), and deciding what the rows are. Nothing tidies up on its own meanwhile, on either side.
 *
 * npx tsx tests/bench/store.ts [rows, 20000 by default] [rounds, 7 by default]
 */
import { randomBytes } from "node:crypto";
import { chmodSync, mkdtempSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import postgres from "postgres";
import { openStore } from "#db/client";
import { callerOf } from "#server/api/router";
import { handedOver } from "#server/intake/handedOver";
import { begin } from "#server/jobs/begin";
import { readOrder } from "#server/jobs/readOrder";
import { send } from "#server/jobs/send";
import { OPERATOR } from "#server/terms/person";
import { throwAway } from "../setup/postgres";
import { backFile } from "./backFile";
import { processorMs } from "./processorTime";

const COUNT = Number(process.argv[2] ?? 20_000);
const ROUNDS = Number(process.argv[3] ?? 7);
const BOUNDS = { bytes: 1e9, unpackedBytes: 1e9, rows: 1e7, columns: 512, cellCharacters: 32_767, sheets: 40 };
const TABLES = [
  ...["files", "file_states", "rows", "row_batches", "batch_revisions", "day_sums", "month_sums"],
  ...["fuel_entries", "fuel_spans", "sealed", "ledger"],
];

const begun = await throwAway();
if (begun === null) throw new Error("this machine has no PostgreSQL");
const { urls, stop } = begun;
const store = await openStore({ dataDir: "", databaseUrl: urls.loginUrl, databaseOwnerUrl: urls.ownerUrl });
await begin(store, () => new Date());
const beside = `beside_${randomBytes(4).toString("hex")}`;
const at = (url: string) => url.replace(/\/[^/]*$/, `/${beside}`);
const mighty = postgres(urls.superUrl, { max: 1, onnotice: () => {} });
await mighty.unsafe("alter system set autovacuum = off");
await mighty.unsafe("select pg_reload_conf()");
await mighty.unsafe(`create database ${beside} owner evendry_owner`);
await (await openStore({ dataDir: "", databaseUrl: at(urls.loginUrl), databaseOwnerUrl: at(urls.ownerUrl) })).close();
const other = postgres(at(urls.superUrl), { max: 1, onnotice: () => {} });

// The server itself reads and writes these files, under its own name.
const folder = mkdtempSync(join(tmpdir(), "evendry-copy-"));
chmodSync(folder, 0o777);

const { port } = new URL(urls.superUrl);
function now() {
  return { elapsed: performance.now(), processor: processorMs(port) };
}
/** Asked for the time of a record when everything is planned and nothing is written: there storing begins. */
let planned = now();
const clock = () => {
  planned = now();
  return new Date("2032-01-01T00:00:00Z");
};
const api = callerOf({ store, person: OPERATOR, clock, bounds: BOUNDS });
const corridor = { store, person: OPERATOR.id, clock };
/** Milliseconds; `Time` elapsed, all others of processors. */
interface Round {
  readonly storingTime: number;
  readonly copyTime: number;
  readonly storing: number;
  readonly all: number;
  readonly here: number;
  readonly copy: number;
}
const rounds: Round[] = [];
let copied = 0;
for (let round = 0; round < ROUNDS; round++) {
  const code = `S${round}`;
  await api.sites.open({
    code,
    declarations: [
      { kind: "open", from: "2029-01-01", value: {} },
      { kind: "method", from: "2029-01-01", value: { method: "sand-pan" } },
    ],
  });
  const [found] = await mighty<{ id: number }[]>`select id from sites where code = ${code}`;
  if (found === undefined) throw new Error("the site is not there");
  const bytes = backFile(COUNT, 1, round);
  const hints = { massUnit: "kg", timeUnit: "min", fuelUnit: "kg" } as const;
  const reading = readOrder({ bytes, hints, bounds: BOUNDS });
  if ("refused" in reading) throw new Error(reading.refused);
  const handed = { ...reading, rows: handedOver(reading.rows) };
  const sent = { bytes, name: "log.csv", site: found.id, cameBy: "site", claimedAt: null } as const;
  const started = processorMs(port);
  const startedHere = process.cpuUsage();
  const slip = await send(corridor, { sent, reading: handed, hints });
  const { user, system } = process.cpuUsage(startedHere);
  const ended = now();
  if (slip.rows.counted !== COUNT) throw new Error(JSON.stringify(slip.rows));

  copied = 0;
  for (const table of TABLES) {
    const key = `${table === "ledger" ? "index" : "ledger_index"} = ${slip.ledgerIndex}`;
    await mighty.unsafe(`copy (select * from ${table} where ${key}) to '${join(folder, table)}'`);
    copied += statSync(join(folder, table)).size;
  }
  const began = now();
  await other.begin(async (tx) => {
    for (const table of TABLES) await tx.unsafe(`copy ${table} from '${join(folder, table)}'`);
  });
  const over = now();
  rounds.push({
    storingTime: ended.elapsed - planned.elapsed,
    copyTime: over.elapsed - began.elapsed,
    storing: ended.processor - planned.processor,
    all: ended.processor - started,
    here: (user + system) / 1000,
    copy: over.processor - began.processor,
  });
}
const inOrder = (value: (round: Round) => number) => rounds.map(value).sort((a, b) => a - b);
const middle = (values: readonly number[]) => values[Math.floor(values.length / 2)] ?? Number.NaN;
const ms = (what: keyof Round) => `${middle(inOrder((round) => round[what])).toFixed(0)} ms`;
const over = (what: keyof Round, copy: keyof Round) => {
  const times = inOrder((round) => round[what] / round[copy]);
  return `${middle(times).toFixed(2)} × (${times[0]?.toFixed(2)} to ${times.at(-1)?.toFixed(2)})`;
};
console.log(
  `storing ${COUNT} rows: ${over("storingTime", "copyTime")} the time of COPY of the same ${(copied / 2 ** 20).toFixed(1)} MB, ${ms("storingTime")} beside ${ms("copyTime")};`,
  `of processors ${over("storing", "copy")}, ${ms("storing")} beside ${ms("copy")};`,
  `with planning ${over("all", "copy")}, ${ms("all")}, ${ms("here")} of them here`,
);
await Promise.all([store.close(), mighty.end(), other.end()]);
rmSync(folder, { recursive: true, force: true });
stop();
