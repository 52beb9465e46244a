import { randomBytes } from "node:crypto";
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import postgres from "postgres";
import { afterAll, expect, inject, test } from "vitest";
import { BEHIND } from "#app/_words/behind";
import { plusDays } from "#server/terms/days";
import { addressOf, freshFolder, runNode, runStart, stopped } from "../setup/program";
import { signedInAs } from "../setup/signedIn";

const folder = freshFolder();
afterAll(() => folder.remove());

const urls = inject("postgres");

/** A log of some weeks, one load a day, up to yesterday: long enough to be watched. */
function log(): string {
  const today = new Date().toISOString().slice(0, 10);
  const rows = Array.from(
    { length: 40 },
    (_, at) => `${plusDays(today, at - 40)},${at + 1},5.${at % 7},1.${5 + (at % 4)}`,
  );
  return ["Date,Batch no,Fresh (kg),Dried (kg)", ...rows].join("\n");
}

test.runIf(urls !== null)(
  "pages do not wait until what came is watched, and say so as long as it is not",
  async () => {
    if (urls === null) return;
    const name = `evendry_${randomBytes(6).toString("hex")}`;
    const at = (url: string) => url.replace(/\/[^/]*$/, `/${name}`);
    const [owner, holder] = [urls.ownerUrl, at(urls.superUrl)].map((url) =>
      postgres(url, { max: 1, onnotice: () => {} }),
    );
    if (owner === undefined || holder === undefined) throw new Error("both are there");
    await owner.unsafe(`create database ${name}`);
    const variables = { DATABASE_URL: at(urls.loginUrl), DATABASE_OWNER_URL: at(urls.ownerUrl), DATA_DIR: folder.path };
    const server = runStart(["--port", "0"], variables);
    const run = async (...words: readonly string[]) => {
      const { exit, out, err } = await runNode(["server/evendry.mjs", ...words, "--json"], variables).ended;
      if (exit !== 0) throw new Error(`${words.join(" ")} ended with ${exit}: ${err}`);
      return out;
    };
    try {
      const address = await addressOf(server);
      const { password } = JSON.parse(await run("people", "add", "Marit Osei", "--role", "officer")) as {
        password: string;
      };
      const cookie = await signedInAs(address, "Marit Osei", password);
      await run("sites", "add", "OJ", "--name", "Old Jetty", "--method", "sand-pan", "--from", "2026-01-01");
      const shown = async (path: string) => {
        const answer = await fetch(`${address}${path}`, { headers: { cookie } });
        expect(answer.status, path).toBe(200);
        return answer.text();
      };
      // what was watched is recorded under this lock: while another session has it, no watching comes to its end
      await holder`select pg_advisory_lock(2, 0)`;
      writeFileSync(join(folder.path, "log.csv"), log());
      await run("send", join(folder.path, "log.csv"), "--site", "OJ");
      for (const path of ["/compare", "/sites/OJ", "/signals", "/signals/accepted"]) {
        const began = performance.now();
        expect(await shown(path), path).toContain(BEHIND);
        expect(performance.now() - began, path).toBeLessThan(20_000);
      }
      await holder`select pg_advisory_unlock(2, 0)`;
      await expect.poll(() => shown("/compare"), { timeout: 240_000, interval: 500 }).not.toContain(BEHIND);
      expect(await shown("/sites/OJ")).not.toContain(BEHIND);
    } finally {
      await holder.end();
      await owner.end();
      expect(await stopped(server)).toMatchObject({ exit: 0, err: "" });
    }
  },
  300_000,
);
