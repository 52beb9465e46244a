import { mkdir, open, readFile, truncate } from "node:fs/promises";
import { join } from "node:path";
import { syncFolder } from "./keepSynced";

/** The synced copy of the ledger: one line of JSON a record, in order, with what its command added. */
export class Journal {
  readonly path: string;
  /** the index of the last record in it */
  size: number;

  private constructor(path: string, size: number) {
    this.path = path;
    this.size = size;
  }

  /** Opens the journal of a folder; half a line that a crash left at the end is cut off. */
  static async open(folder: string): Promise<Journal> {
    await mkdir(folder, { recursive: true, mode: 0o700 });
    const path = join(folder, "ledger.jsonl");
    const file = await open(path, "a", 0o600);
    await file.close();
    await syncFolder(folder);
    const text = await readFile(path);
    const whole = text.lastIndexOf(10) + 1;
    if (whole < text.length) await truncate(path, whole);
    const last = text.subarray(text.lastIndexOf(10, whole - 2) + 1, whole).toString("utf8");
    return new Journal(path, last === "" ? 0 : (JSON.parse(last) as { index: number }).index);
  }

  /** Appends lines whose first record follows the last one here, and syncs them. */
  async append(lines: readonly { readonly index: number }[]): Promise<void> {
    const last = lines.at(-1);
    if (last === undefined) return;
    if (lines[0]?.index !== this.size + 1)
      throw new Error(`record ${lines[0]?.index} does not follow journal line ${this.size}`);
    const file = await open(this.path, "a", 0o600);
    try {
      await file.appendFile(`${lines.map((line) => JSON.stringify(line)).join("\n")}\n`);
      await file.sync();
    } finally {
      await file.close();
    }
    this.size = last.index;
  }
}
