import type { KnownBatch, MatchRow } from "./matchTypes";

type KeyOf = (one: MatchRow | KnownBatch) => string | null;

interface Group {
  readonly rows: readonly MatchRow[];
  readonly known: readonly KnownBatch[];
}

/** Rows and batches while they find each other; each is paired at most once. */
export class Pairing {
  private readonly partners = new Map<MatchRow, KnownBatch>();
  private readonly taken = new Set<KnownBatch>();
  private readonly doubtful = new Map<MatchRow, readonly KnownBatch[]>();
  private readonly sums = new Map<
    MatchRow,
    { readonly kind: "takes-place" | "same"; readonly of: readonly KnownBatch[] }
  >();
  private readonly parts = new Map<MatchRow, KnownBatch>();
  private readonly alone = new Set<MatchRow>();

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

  /** A person must say; `among` are the batches that it may be, where it is known which. */
  doubt(row: MatchRow, among: readonly KnownBatch[] = []): void {
    this.doubtful.set(row, among);
  }

  /** The row is a batch of its own, whatever else stands there. */
  setApart(row: MatchRow): void {
    this.alone.add(row);
  }

  /** The row tells several batches at once: in their place, or the same that they add up to. */
  sumUp(row: MatchRow, kind: "takes-place" | "same", of: readonly KnownBatch[]): void {
    this.sums.set(row, { kind, of });
    for (const one of of) this.taken.add(one);
  }

  /** The row tells a part of a batch that several rows make up. */
  partOf(row: MatchRow, whole: KnownBatch): void {
    this.parts.set(row, whole);
    this.taken.add(whole);
  }

  partner(row: MatchRow): KnownBatch | undefined {
    return this.partners.get(row);
  }

  sum(row: MatchRow) {
    return this.sums.get(row);
  }

  whole(row: MatchRow): KnownBatch | undefined {
    return this.parts.get(row);
  }

  doubtAmong(row: MatchRow): readonly KnownBatch[] | undefined {
    return this.doubtful.get(row);
  }

  rowsLeft(): readonly MatchRow[] {
    const { partners, doubtful, sums, parts, alone } = this;
    const settled = [partners, doubtful, sums, parts, alone].filter(({ size }) => size > 0);
    return settled.length === 0 ? this.rows : this.rows.filter((row) => !settled.some((some) => some.has(row)));
  }

  /** The batches that rows have found, each with the file that said so last. */
  knownFound(): readonly KnownBatch[] {
    return [...this.taken];
  }

  knownLeft(): readonly KnownBatch[] {
    return this.known.filter((batch) => !this.taken.has(batch));
  }

  /** Days on which some row of this file has found its batch: the file sends these days again. */
  daysSentAgain(): ReadonlySet<string> {
    return new Set([...this.partners.keys()].map(({ batch }) => batch.day));
  }

  /** What is left on both sides, by key, where the two meet; a null key stays out. */
  groups(keyOf: KeyOf): Group[] {
    const groups = new Map<string, { rows: MatchRow[]; known: KnownBatch[] }>();
    for (const batch of this.knownLeft()) {
      const key = keyOf(batch);
      const group = key === null ? undefined : groups.get(key);
      if (group !== undefined) group.known.push(batch);
      else if (key !== null) groups.set(key, { rows: [], known: [batch] });
    }
    for (const row of groups.size === 0 ? [] : this.rowsLeft()) {
      const key = keyOf(row);
      if (key !== null) groups.get(key)?.rows.push(row);
    }
    return [...groups.values()].filter(({ rows }) => rows.length > 0);
  }

  /** The rows left whose key comes more than once among them; a null key stays out. */
  repeated(keyOf: KeyOf): MatchRow[] {
    const first = new Map<string, MatchRow>();
    const repeated = new Set<MatchRow>();
    for (const row of this.rowsLeft()) {
      const key = keyOf(row);
      const before = key === null ? undefined : first.get(key);
      if (before !== undefined) repeated.add(before).add(row);
      else if (key !== null) first.set(key, row);
    }
    return [...repeated];
  }
}
