import type { KnownBatch, MatchRow } from "./matchTypes";

interface Group {
  readonly rows: readonly MatchRow[];
  readonly known: readonly KnownBatch[];
}

/** Rows and batches while they find each other; each is paired at most once. */
export class Pairing {
  private readonly partners = new Map<MatchRow, KnownBatch>();
  private readonly taken = new Set<KnownBatch>();
  private readonly doubtful = new Set<MatchRow>();

  private readonly rows: readonly MatchRow[];
  private readonly known: readonly KnownBatch[];

  constructor(rows: readonly MatchRow[], known: readonly KnownBatch[]) {
    this.rows = rows;
    this.known = known;
  }

  pair(row: MatchRow, batch: KnownBatch): void {
    this.partners.set(row, batch);
    this.taken.add(batch);
  }

  doubt(row: MatchRow): void {
    this.doubtful.add(row);
  }

  partner(row: MatchRow): KnownBatch | undefined {
    return this.partners.get(row);
  }

  isDoubtful(row: MatchRow): boolean {
    return this.doubtful.has(row);
  }

  rowsLeft(): readonly MatchRow[] {
    return this.rows.filter((row) => !this.partners.has(row) && !this.doubtful.has(row));
  }

  knownLeft(): readonly KnownBatch[] {
    return this.known.filter((batch) => !this.taken.has(batch));
  }

  /** Days on which some row of this file has found its batch: the file sends these days again. */
  daysSentAgain(): ReadonlySet<string> {
    return new Set([...this.partners.keys()].map(({ batch }) => batch.day));
  }

  /** What is left on both sides, by key; a null key stays out. Groups without a row are left out. */
  groups(keyOf: (one: MatchRow | KnownBatch) => string | null): Group[] {
    const groups = new Map<string, { rows: MatchRow[]; known: KnownBatch[] }>();
    for (const row of this.rowsLeft()) {
      const key = keyOf(row);
      if (key === null) continue;
      const group = groups.get(key);
      if (group === undefined) groups.set(key, { rows: [row], known: [] });
      else group.rows.push(row);
    }
    for (const batch of this.knownLeft()) {
      const key = keyOf(batch);
      if (key !== null) groups.get(key)?.known.push(batch);
    }
    return [...groups.values()];
  }
}
