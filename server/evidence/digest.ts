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
    for (const row of rows) {
      this.lines.write(objectOf(row, null));
      this.lines.end();
    }
  }

  add(table: string, { rows, columns }: TableSaid): void {
    this.begin(table);
    const parts = partsOf(columns);
    for (let row = 0; row < rows; row++) this.addLine(parts, row);
  }

  /** What a row says: its columns that are not null, so that a column added later changes no earlier digest. */
  private addLine(parts: readonly Part[], row: number): void {
    const { lines } = this;
    let open = NOTHING;
    for (const { before, shared, each, bare } of parts) {
      const text = each === null ? shared : (each[row] ?? null);
      if (text === null) continue;
      lines.write(before[open]!);
      lines.write(text);
      open = bare ? BARE : WHOLE;
    }
    lines.write(ENDS[open]!);
    lines.end();
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

/** What a line has so far: nothing, something whole, or a text whose quote is still open. */
const [NOTHING, WHOLE, BARE] = [0, 1, 2];
const ENDS = ["{}", "}", '"}'];

/** A text of all rows, or one of each, and what stands before it: after nothing, something whole, or an open quote. */
interface Part {
  readonly before: readonly string[];
  readonly shared: string;
  readonly each: readonly (string | null)[] | null;
  readonly bare: boolean;
}

function before(name: string): string[] {
  return ["{", ",", '",'].map((mark) => mark + name);
}

/** What each row says in the order of column names; what all of them share next to each other is one part. */
function partsOf(columns: TableSaid["columns"]): Part[] {
  const parts: Part[] = [];
  let shared: string[] = [];
  const share = () => {
    if (shared.length > 0) parts.push({ before: before(""), shared: shared.join(","), each: null, bare: false });
    shared = [];
  };
  for (const column of [...columns].sort((a, b) => (a.name < b.name ? -1 : 1))) {
    const name = `${JSON.stringify(column.name)}:`;
    if (column.each === null) {
      if (column.all !== null) shared.push(name + column.all);
      continue;
    }
    share();
    const { each, bare = false } = column;
    parts.push({ before: before(bare ? `${name}"` : name), shared: "", each, bare });
  }
  share();
  return parts;
}
