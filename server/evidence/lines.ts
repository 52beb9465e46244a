import type { Hash } from "node:crypto";

/** Bytes of lines that stand together. Growing takes one more of these and copies nothing but the line under way. */
const PIECE = 2 ** 20;
/** Longer texts are written by the machine's own copying. */
const SHORT = 48;
const ASCII = 0x7f;

interface Piece {
  readonly bytes: Buffer;
  /** where its last line ends */
  end: number;
}

/** Lines of text, kept as the bytes that are hashed: many long strings would cost more to tidy up than to write. */
export class Lines {
  private readonly pieces: Piece[] = [newPiece(PIECE)];
  private piece = this.pieces[0]!;
  /** of each line: the number of its piece, where it begins there and where it ends */
  private readonly at: number[] = [];
  private readonly from: number[] = [];
  private readonly to: number[] = [];
  private used = 0;
  private areInOrder = true;

  /** Adds a text to the line under way. */
  write(text: string): void {
    const most = 3 * text.length;
    if (this.used + most > this.piece.bytes.length) this.goOn(most);
    const { bytes } = this.piece;
    if (text.length > SHORT) {
      this.used += bytes.write(text, this.used);
      return;
    }
    let { used } = this;
    for (let place = 0; place < text.length; place++) {
      const code = text.charCodeAt(place);
      if (code > ASCII) {
        this.used += bytes.write(text, this.used);
        return;
      }
      bytes[used++] = code;
    }
    this.used = used;
  }

  /** Ends the line under way; the next one begins. */
  end(): void {
    this.write("\n");
    const line = this.at.push(this.pieces.length - 1) - 1;
    this.from.push(this.piece.end);
    this.to.push(this.used);
    this.piece.end = this.used;
    if (this.areInOrder && line > 0) this.areInOrder = this.compare(line - 1, line) <= 0;
  }

  /** Hashes them in the order of their UTF-16 code units, and forgets them. */
  hashInOrder(hash: Hash): void {
    if (this.areInOrder) for (const { bytes, end } of this.pieces) hash.update(bytes.subarray(0, end));
    else this.hashSorted(hash);
    this.pieces.length = 1;
    this.piece = this.pieces[0]!;
    this.piece.end = 0;
    for (const list of [this.at, this.from, this.to]) list.length = 0;
    this.used = 0;
    this.areInOrder = true;
  }

  /** Takes the line under way to a new piece, with room for so many bytes more. */
  private goOn(bytes: number): void {
    const begun = this.piece.bytes.subarray(this.piece.end, this.used);
    this.piece = newPiece(Math.max(PIECE, 2 * (begun.length + bytes)));
    this.pieces.push(this.piece);
    this.used = begun.copy(this.piece.bytes);
  }

  private hashSorted(hash: Hash): void {
    const { at, from, to } = this;
    const sorted = at.map((_, line) => line).sort((a, b) => this.compare(a, b));
    for (let first = 0, next = 1; first < sorted.length; first = next++) {
      const line = sorted[first]!;
      // what stands together already is hashed together
      while (next < sorted.length && sorted[next] === sorted[next - 1]! + 1 && at[sorted[next]!] === at[line]) next++;
      hash.update(this.bytesOf(line).subarray(from[line], to[sorted[next - 1]!]));
    }
  }

  private compare(one: number, other: number): number {
    const { from, to } = this;
    const [bytes, others] = [this.bytesOf(one), this.bytesOf(other)];
    let at = from[one]!;
    let beside = from[other]!;
    const end = Math.min(to[one]!, at + to[other]! - beside);
    while (at < end && bytes[at] === others[beside]) {
      at++;
      beside++;
    }
    if (at < end) return rank(bytes[at]!) - rank(others[beside]!);
    return to[one]! - from[one]! - (to[other]! - from[other]!);
  }

  private bytesOf(line: number): Buffer {
    return this.pieces[this.at[line]!]!.bytes;
  }
}

function newPiece(bytes: number): Piece {
  return { bytes: Buffer.allocUnsafeSlow(bytes), end: 0 };
}

/** Bytes of UTF-8 in the order of code units: what takes four bytes is two surrogates, before the last 8,192 of the others. */
function rank(byte: number): number {
  if (byte < 0xee) return byte;
  return byte < 0xf0 ? byte + 8 : byte - 2;
}
