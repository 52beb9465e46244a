import { randomUUID } from "node:crypto";

/** A new UUID of version 7 (RFC 9562): it begins with the time, so that index pages fill in order. */
export function newId(now: Date = new Date()): string {
  const time = now.getTime().toString(16).padStart(12, "0");
  // version 4 has its random digits in the same places, and draws them from the system many at a time
  return `${time.slice(0, 8)}-${time.slice(8)}-7${randomUUID().slice(15)}`;
}
