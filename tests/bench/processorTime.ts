import { readdirSync, readFileSync } from "node:fs";

const TICK_MS = 10;

/** Milliseconds of processor time that this process and the processes of a PostgreSQL, named by its folder, have used. */
export function processorMs(postgresPort: string): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000 + backendsMs(postgresPort);
}

/** Time of all processes below the one that listens on the port: Linux only. */
function backendsMs(port: string): number {
  const stats = readdirSync("/proc").flatMap((name) => (/^\d+$/.test(name) ? statOf(name) : []));
  const server = stats.find(({ words }) => words.includes("-p") && words.includes(port));
  const mine = stats.filter(({ pid, parent }) => pid === server?.pid || parent === server?.pid);
  return mine.reduce((sum, { ticks }) => sum + ticks, 0) * TICK_MS;
}

function statOf(pid: string) {
  try {
    const stat = readFileSync(`/proc/${pid}/stat`, "utf8");
    const fields = stat.slice(stat.lastIndexOf(")") + 2).split(" ");
    const words = readFileSync(`/proc/${pid}/cmdline`, "utf8").split("\0");
    // user and system time, and those of children that have ended
    const ticks = [11, 12, 13, 14].reduce((sum, at) => sum + Number(fields[at]), 0);
    return [{ pid, parent: fields[1], words, ticks }];
  } catch {
    return []; // it has ended
  }
}
