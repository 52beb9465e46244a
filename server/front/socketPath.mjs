import { createHash } from "node:crypto";
import { tmpdir } from "node:os";
import { join } from "node:path";

/** The kernel takes no longer names for a socket. */
const LONGEST = 100;

/**
 * Where a server that holds the embedded database of a folder takes commands.
 *
 * @param {string} dataDir absolute
 * @returns {string}
 */
export function socketPath(dataDir) {
  const name = createHash("sha256").update(dataDir).digest("hex").slice(0, 24);
  if (process.platform === "win32") return `\\\\.\\pipe\\evendry-${name}`;
  const inside = join(dataDir, "evendry.sock");
  return Buffer.byteLength(inside) <= LONGEST ? inside : join(tmpdir(), `evendry-${name}.sock`);
}
