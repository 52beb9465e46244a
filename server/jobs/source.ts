import { createReadStream, statSync } from "node:fs";

/** Bytes that need not be in memory at once; they can be gone through several times. */
export class Source {
  readonly size: number;
  readonly pieces: () => AsyncIterable<Uint8Array>;

  constructor(size: number, pieces: () => AsyncIterable<Uint8Array>) {
    this.size = size;
    this.pieces = pieces;
  }

  /** A file on the disk. */
  static at(path: string): Source {
    return new Source(statSync(path).size, () => createReadStream(path, { highWaterMark: 2 ** 20 }));
  }

  static of(bytes: Uint8Array): Source {
    return new Source(bytes.length, async function* () {
      for (let from = 0; from < bytes.length; from += 2 ** 20) yield bytes.subarray(from, from + 2 ** 20);
    });
  }
}
