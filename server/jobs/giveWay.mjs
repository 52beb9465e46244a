// For threads that work while somebody waits for a page. Plain JavaScript because threads are started from it.
import { readlinkSync } from "node:fs";
import { setPriority } from "node:os";

const BELOW_OTHERS = 10;

/** Lets the calling thread give way to all others where the processors are busy. Only Linux gives a thread its own rank. */
export function giveWay() {
  try {
    setPriority(Number(readlinkSync("/proc/thread-self").split("/").at(-1)), BELOW_OTHERS);
  } catch {
    // elsewhere it works beside the others as any thread does
  }
}
