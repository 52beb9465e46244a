import { createHash } from "node:crypto";

/**
 * The ledger's tree of hashes, RFC 9162 section 2.1: a leaf is SHA-256(0x00 ‖ record), a node SHA-256(0x01 ‖ left ‖ right).
 * Between records only the peaks are kept: the roots of the full subtrees from the left, largest first.
 */
export function leafHash(record: string | Uint8Array): string {
  return createHash("sha256").update(Uint8Array.of(0)).update(record).digest("hex");
}

function node(left: string, right: string): string {
  return createHash("sha256")
    .update(Uint8Array.of(1))
    .update(Buffer.from(left, "hex"))
    .update(Buffer.from(right, "hex"))
    .digest("hex");
}

/** The peaks after one more leaf, given how many leaves there were. */
export function withLeaf(peaks: readonly string[], size: number, leaf: string): string[] {
  const grown = [...peaks, leaf];
  for (let rest = size; rest % 2 === 1; rest = (rest - 1) / 2) {
    const right = grown.pop();
    const left = grown.pop();
    if (left === undefined || right === undefined)
      throw new Error(`a tree of ${size} leaves has other peaks than these ${peaks.length}`);
    grown.push(node(left, right));
  }
  return grown;
}

/** The root of the tree; of no leaves at all, the hash of nothing. */
export function rootOf(peaks: readonly string[]): string {
  if (peaks.length === 0) return createHash("sha256").digest("hex");
  return peaks.slice(0, -1).reduceRight((root, peak) => node(peak, root), peaks.at(-1) ?? "");
}
