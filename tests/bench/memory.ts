import { readFileSync } from "node:fs";

/** The most that a process or one of its children ever held, in MB: the kernel keeps it since their start. Linux only. */
export function mostHeldBy(pid: number | undefined): number {
  const children = textOf(`/proc/${pid}/task/${pid}/children`).split(" ").filter(Boolean).map(Number);
  return Math.max(0, ...[pid, ...children].map(heldBy));
}

function heldBy(pid: number | undefined): number {
  return Number(/VmHWM:\s+(\d+)/.exec(textOf(`/proc/${pid}/status`))?.[1] ?? 0) / 1024;
}

function textOf(path: string): string {
  try {
    return readFileSync(path, "utf8");
  } catch {
    return ""; // it has ended
  }
}
