import { rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";

export interface SignIn {
  readonly role: string;
  readonly name: string;
  readonly password: string;
}

/**
 * Lines that tell the new demo's sign-ins, once.
 *
 * Where the output is no terminal it may be a log that others read, so there they go to a file of ours instead.
 */
export function tellSignIns(signIns: readonly SignIn[], dataDir: string, isTerminal: boolean): string[] {
  if (signIns.length === 0) return [];
  const lines = signIns.map(({ role, name, password }) => `    ${role.padEnd(8)}  ${name.padEnd(24)}  ${password}`);
  if (isTerminal) return ["  Demo sign-ins, shown this once:", ...lines, ""];
  const path = join(dataDir, "sign-ins.txt");
  rmSync(path, { force: true }); // an older file keeps its older rights
  writeFileSync(path, `${lines.map((line) => line.trim()).join("\n")}\n`, { mode: 0o600, flag: "wx" });
  return [
    `  Demo sign-ins are in ${path} (not shown here, because this output may be a log). Delete it when read.`,
    "",
  ];
}
