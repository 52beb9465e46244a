import { dayNumber, dayOf } from "#server/terms/days";
import type { KnownBatch, Match, MatchRow, Numbering } from "./matchTypes";

/** A dried weight comes at the latest so many days after the roasting day, where only a day's number names it: common practice. */
const DAYS_LATER = 3;

/**
 * Finds the load that each dried weight belongs to: by number, else by harvest code, else by day, pan and number.
 * Exactly one candidate joins; none or several are doubtful, and so are two weights for one load.
 */
export function matchDried(rows: readonly MatchRow[], known: readonly KnownBatch[], numbering: Numbering): Match[] {
  if (rows.length === 0) return [];
  const index = indexOf(known, numbering);
  const found = rows.map((row) => ({ row, batch: loadOf(row, index, numbering) }));
  const claims = new Map<string, number>();
  for (const { batch } of found) if (batch !== null) claims.set(batch.id, (claims.get(batch.id) ?? 0) + 1);
  return found.map(({ row: { key, batch: written }, batch }) => {
    if (batch === null || claims.get(batch.id) !== 1) return { key, kind: "doubtful", batch: null, members: [] };
    if (batch.batch.dried === null) return { key, kind: "joins-dried", batch: batch.id, members: [] };
    const same = batch.batch.dried.exact === written.dried?.exact;
    return { key, kind: same ? "same" : "doubtful", batch: same ? batch.id : null, members: [] };
  });
}

interface Index {
  readonly byNumber: ReadonlyMap<string, readonly KnownBatch[]>;
  readonly byHarvest: ReadonlyMap<string, readonly KnownBatch[]>;
  readonly byPlace: ReadonlyMap<string, readonly KnownBatch[]>;
}

function indexOf(known: readonly KnownBatch[], numbering: Numbering): Index {
  const loads = known.filter(({ batch }) => batch.fresh !== null);
  return {
    byNumber: grouped(loads, ({ batch: { number, day } }) =>
      number === null ? null : numbering === "site" ? number : `${day}|${number}`,
    ),
    byHarvest: grouped(loads, ({ batch }) => batch.harvest),
    byPlace: grouped(loads, ({ batch }) => `${batch.day}|${batch.pan}|${batch.number}`),
  };
}

function grouped(known: readonly KnownBatch[], keyOf: (batch: KnownBatch) => string | null): Map<string, KnownBatch[]> {
  const groups = new Map<string, KnownBatch[]>();
  for (const batch of known) {
    const key = keyOf(batch);
    if (key === null) continue;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [batch]);
    else group.push(batch);
  }
  return groups;
}

function loadOf(row: MatchRow, index: Index, numbering: Numbering): KnownBatch | null {
  const { number, harvest, day, pan } = row.batch;
  if (number !== null) {
    const numbered = numbering === "site" ? (index.byNumber.get(number) ?? []) : ofTheseDays(row, number, index);
    const inPan = pan === null ? numbered : numbered.filter(({ batch }) => batch.pan === null || batch.pan === pan);
    if (inPan.length > 0) return theOne(inPan, row);
  }
  const harvested = harvest === null ? [] : (index.byHarvest.get(harvest) ?? []);
  if (harvested.length > 0) return theOne(harvested, row);
  return theOne(index.byPlace.get(`${day}|${pan}|${number}`) ?? [], row);
}

/** A day's number, on the row's own day or, where that has none, on the days before it. */
function ofTheseDays({ batch: { day } }: MatchRow, number: string, index: Index): readonly KnownBatch[] {
  const own = index.byNumber.get(`${day}|${number}`) ?? [];
  if (own.length > 0) return own;
  const before = Array.from({ length: DAYS_LATER }, (_, days) => dayOf(dayNumber(day) - days - 1));
  return before.flatMap((earlier) => index.byNumber.get(`${earlier}|${number}`) ?? []);
}

/**
 * The only one that waits for its dried weight, else the only one that already has just this weight. Where one waits
 * and another has this weight, the row may be either.
 */
function theOne(candidates: readonly KnownBatch[], { batch: { dried } }: MatchRow): KnownBatch | null {
  const waiting = candidates.filter(({ batch }) => batch.dried === null && batch.driedToCome);
  const having = candidates.filter(({ batch }) => batch.dried !== null && batch.dried.exact === dried?.exact);
  const [only, second] = [...waiting, ...having];
  return only !== undefined && second === undefined ? only : null;
}
