import type { Hash } from "node:crypto";

/** Lines of text, kept as the bytes that are hashed: many long strings would cost more to tidy up than to write. */
export class Lines {
  private bytes = Buffer.allocUnsafe(2 ** 16);
  private readonly ends: number[] = [0];
  private used = 0;
  private areInOrder = true;

  add(line: string): void {
    const most = this.used + 3 * line.length;
    if (most > this.bytes.length) this.bytes = Buffer.concat([this.bytes.subarray(0, this.used)], 2 * most);
    this.used += this.bytes.write(line, this.used);
    const at = this.ends.push(this.used) - 2;
    if (this.areInOrder && at > 0) this.areInOrder = this.compare(at - 1, at) <= 0;
  }

  /** Hashes them in the order of their UTF-16 code units, and forgets them. */
  hashInOrder(hash: Hash): void {
    if (this.areInOrder) hash.update(this.bytes.subarray(0, this.used));
    else this.hashSorted(hash);
    this.ends.length = 1;
    this.used = 0;
    this.areInOrder = true;
  }

  private hashSorted(hash: Hash): void {
    const sorted = Array.from({ length: this.ends.length - 1 }, (_, line) => line).sort((a, b) => this.compare(a, b));
    for (let from = 0, to = 1; from < sorted.length; from = to++) {
      // what stands together already is hashed together
      while (to < sorted.length && sorted[to] === sorted[to - 1]! + 1) to++;
      hash.update(this.bytes.subarray(this.ends[sorted[from]!], this.ends[sorted[to - 1]! + 1]));
    }
  }

  private compare(one: number, other: number): number {
    const { bytes, ends } = this;
    let at = ends[one]!;
    let beside = ends[other]!;
    const end = Math.min(ends[one + 1]!, at + ends[other + 1]! - beside);
    while (at < end && bytes[at] === bytes[beside]) {
      at++;
      beside++;
    }
    if (at < end) return rank(bytes[at]!) - rank(bytes[beside]!);
    return ends[one + 1]! - ends[one]! - (ends[other + 1]! - ends[other]!);
  }
}

/** Bytes of UTF-8 in the order of code units: what takes four bytes is two surrogates, before the last 8,192 of the others. */
function rank(byte: number): number {
  if (byte < 0xee) return byte;
  return byte < 0xf0 ? byte + 8 : byte - 2;
}
