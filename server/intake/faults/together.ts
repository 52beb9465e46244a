import type { Fault } from "#server/terms/fault";
import type { RowOnGrid } from "#server/terms/row";
import { isPlausible, kgOf, loadsOf, middle, pooled } from "./loads";

/** So many loads go onto one weighing at the most: common practice. */
const MOST = 8;
/** A dried weight above this share of its own fresh one is more than one load gives. */
const TOO_MUCH = 0.5;

/**
 * One dried weight under several loads: loads without a dried weight, and right below them, on the same day, one whose
 * dried weight is too much for itself and plausible for all of them.
 */
export function weighedTogether(sheet: string, rows: readonly RowOnGrid[]): Fault[] {
  const usual = middle(
    loadsOf(rows)
      .map((load) => load.dried.value / load.fresh.value)
      .filter(isPlausible),
  );
  const found: Fault[] = [];
  let waiting: RowOnGrid[] = [];
  for (const row of rows) {
    if (row.fate === "set-aside" || row.batch === null) continue;
    const { day, fresh, dried } = row.batch;
    if (waiting.some(({ batch }) => batch?.day !== day)) waiting = [];
    if (fresh !== null && dried === null) waiting.push(row);
    if (dried === null) continue;
    const own = row.driedOnly ? null : (fresh?.value ?? null);
    if (!(row.driedOnly && row.batch.number !== null) && (own === null || dried.value > TOO_MUCH * own)) {
      const set = setOf(waiting, row, own ?? 0, dried.value, usual);
      if (set !== null) found.push(fault(sheet, row, set, own, dried.value));
    }
    waiting = [];
  }
  return found;
}

/** As many of the loads above as make the most usual yield; null when none makes a plausible one. */
function setOf(
  waiting: readonly RowOnGrid[],
  holder: RowOnGrid,
  ownKg: number,
  driedKg: number,
  usual: number | null,
): readonly RowOnGrid[] | null {
  let best: readonly RowOnGrid[] | null = null;
  let nearest = Number.POSITIVE_INFINITY;
  let freshKg = ownKg;
  for (let count = 1; count <= Math.min(MOST, waiting.length); count++) {
    freshKg += waiting[waiting.length - count]?.batch?.fresh?.value ?? 0;
    const share = driedKg / freshKg;
    const away = Math.abs(share - (usual ?? share));
    // without a usual yield, all loads above belong to it or none
    const isOne = usual !== null || count === waiting.length;
    if (isOne && isPlausible(share) && away < nearest) {
      nearest = away;
      best = [holder, ...waiting.slice(waiting.length - count)];
    }
  }
  return best;
}

function fault(
  sheet: string,
  holder: RowOnGrid,
  set: readonly RowOnGrid[],
  ownKg: number | null,
  driedKg: number,
): Fault {
  const freshKg = set.reduce((sum, { batch }) => sum + (batch?.fresh?.value ?? 0), 0);
  const alone = ownKg === null ? 0 : driedKg / ownKg;
  return {
    code: "weighed-together",
    evidence: { loads: set.length - (ownKg === null ? 1 : 0), alone, together: driedKg / freshKg },
    sheet,
    rows: set.map(({ row }) => row).sort((a, b) => a - b),
    yieldNow: pooled(loadsOf([holder]).map(kgOf)),
    yieldThen: driedKg / freshKg,
    answers: { together: [set.map(({ row }) => `${sheet}!${row}`)] },
  };
}
