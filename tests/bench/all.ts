// Every bench that states ratios, one after another, each in a process of its own: npm run bench
import { spawnSync } from "node:child_process";
import { join } from "node:path";

const BENCHES = [
  ["gridSpeed.ts", "100000"],
  ["intake.ts"],
  ["send.ts", "10000"],
  ["store.ts", "20000"],
  ["month.ts", "100000", "800000"],
  ["large.ts", "30000", "100000"],
  ["look.ts"],
  ["meanwhile.ts", "5000"],
  ["doubtful.ts", "5000"],
  ["drift.ts"],
  ["comparison.ts"],
] as const;

let failed = 0;
for (const [file, ...words] of BENCHES) {
  console.log(`\n${file} ${words.join(" ")}`);
  const done = spawnSync(process.execPath, ["--import", "tsx", join(import.meta.dirname, file), ...words], {
    stdio: "inherit",
  });
  if (done.status !== 0) failed++;
}
process.exitCode = failed === 0 ? 0 : 1;
