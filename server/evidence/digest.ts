import { createHash } from "node:crypto";
import type { TableSaid } from "#server/terms/tableSaid";
import { objectOf } from "./canonical";
import { Lines } from "./lines";

/** One hash over what a command added, table by table; rows in the order of their own canonical text. */
export function digestOf(changes: Readonly<Record<string, readonly object[]>>): string {
  const digest = new Digest();
  for (const table of Object.keys(changes).sort()) digest.addRows(table, changes[table] ?? []);
  return digest.hex();
}

/** The same hash while it is added: tables in the order of their names, each in as many pieces as it comes in. */
export class Digest {
  private readonly hash = createHash("sha256");
  private readonly lines = new Lines();
  private table = "";

  addRows(table: string, rows: readonly object[]): void {
    this.begin(table);
    for (const row of rows) this.lines.add(`${objectOf(row, null)}\n`);
  }

  add(table: string, { rows, columns }: TableSaid): void {
    this.begin(table);
    const parts = partsOf(columns);
    for (let row = 0; row < rows; row++) this.lines.add(lineOf(parts, row));
  }

  hex(): string {
    this.lines.hashInOrder(this.hash);
    return this.hash.digest("hex");
  }

  private begin(table: string): void {
    if (table === this.table) return;
    if (table < this.table) throw new Error(`${table} is hashed before ${this.table}`);
    this.lines.hashInOrder(this.hash);
    this.hash.update(`${table}\n`);
    this.table = table;
  }
}

/** What stands before a text, where it is the first of its line and where it is not. Null texts: it has what all rows share. */
interface Part {
  readonly first: string;
  readonly next: string;
  readonly each: readonly (string | null)[] | null;
}

/** What each row says in the order of column names; what all of them share next to each other is one part. */
function partsOf(columns: TableSaid["columns"]): Part[] {
  const parts: Part[] = [];
  let shared = "";
  const add = (text: string, each: Part["each"]) => parts.push({ first: text.slice(1), next: text, each });
  for (const { name, all = null, each } of [...columns].sort((a, b) => (a.name < b.name ? -1 : 1))) {
    const before = `,${JSON.stringify(name)}:`;
    if (each === null) shared += all === null ? "" : before + all;
    else {
      if (shared !== "") add(shared, null);
      add(before, each);
      shared = "";
    }
  }
  if (shared !== "") add(shared, null);
  return parts;
}

/** A line of what a row says: its columns that are not null, so that a column added later changes no earlier digest. */
function lineOf(parts: readonly Part[], row: number): string {
  let line = "";
  for (const { first, next, each } of parts) {
    const text = each === null ? "" : (each[row] ?? null);
    if (text !== null) line += (line === "" ? first : next) + text;
  }
  return `{${line}}\n`;
}
