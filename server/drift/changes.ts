import type { Direction } from "#server/terms/signal";
import { type ChangePoint, changePoint } from "./changePoint";
import type { Pooled } from "./parameters";
import { SCREENED, type Scored, SPIKE } from "./score";
import type { Series } from "./series";

/** One crossing of the drift chart with the change it tells of; places count days of the reference. */
export interface Crossing {
  readonly place: number;
  readonly direction: Direction;
  readonly change: ChangePoint;
  /** index of the earlier crossing that told of the same change */
  readonly confirms: number | null;
  /** days since the change that were looked at */
  readonly daysSince: number;
}

/** A change is looked for among so many days before the signal: about a working year. */
const LOOKED_BACK = 280;

/**
 * The change behind each crossing, from the days up to it alone.
 *
 * After a first change the days since it are searched for a further one. Where these show none beyond the penalty of
 * 3 log n, and the chart went the same way, the crossing says the first change again and the change is read anew with the
 * days that have come since.
 */
export function changesBehind(series: Series, scored: Scored, pooled: Pooled): Crossing[] {
  const found: Crossing[] = [];
  for (const place of scored.crossings) {
    const direction: Direction = scored.ewma[place]! > 0 ? "up" : "down";
    const days = keptUpTo(place, scored);
    const last = found.findLast((one) => one.confirms === null);
    const again = last === undefined ? null : repeated(series, days, direction, last, found, pooled);
    const behind = again ?? fresh(series, days, direction, last?.change.place ?? 0, pooled);
    if (behind !== null) found.push({ place, direction, ...behind });
  }
  return found;
}

type Found = Pick<Crossing, "change" | "confirms" | "daysSince">;

function fresh(
  series: Series,
  days: readonly number[],
  direction: Direction,
  from: number,
  pooled: Pooled,
): Found | null {
  const change =
    changeWithin(series, days, from, direction, pooled) ?? changeWithin(series, days, 0, direction, pooled);
  if (change === null) return null;
  return { change, confirms: null, daysSince: days.filter((day) => day >= change.place).length };
}

function repeated(
  series: Series,
  days: readonly number[],
  direction: Direction,
  last: Crossing,
  all: readonly Crossing[],
  pooled: Pooled,
): Found | null {
  if (last.direction !== direction) return null;
  const since = days.filter((day) => day >= last.change.place);
  const further = changeWithin(series, days, last.change.place, direction, pooled);
  if (further !== null && further.ratio > 3 * Math.log(since.length)) return null;
  const before = all.filter((one) => one.confirms === null && one.place < last.place).at(-1)?.change.place ?? 0;
  const inView = days.length > 0 && days[0]! < last.change.place;
  const change = (inView ? changeWithin(series, days, before, direction, pooled) : null) ?? last.change;
  return { change, confirms: all.indexOf(last), daysSince: days.filter((day) => day >= change.place).length };
}

/** The change among the kept days from a place on, its places counted in the reference. */
function changeWithin(
  series: Series,
  days: readonly number[],
  from: number,
  direction: Direction,
  pooled: Pooled,
): ChangePoint | null {
  const used = days.filter((day) => day >= from);
  const change = changePoint(
    {
      day: Int32Array.from(used, (i) => series.day[i]!),
      value: Float64Array.from(used, (i) => series.value[i]!),
      mass: Float64Array.from(used, (i) => series.mass[i]!),
    },
    pooled,
    direction,
  );
  if (change === null) return null;
  return { ...change, place: used[change.place]!, from: used[change.from]!, to: used[change.to]! };
}

/** Days up to a place without those that stand alone far outside: one wrong record would be taken for a change. */
function keptUpTo(place: number, { state, score }: Scored): number[] {
  const kept: number[] = [];
  for (let i = 0; i <= place; i++) {
    if (state[i] === SCREENED) continue;
    if (state[i] === SPIKE && !sameSpike(i, i - 1) && !(i < place && sameSpike(i, i + 1))) continue;
    kept.push(i);
  }
  return kept.slice(-LOOKED_BACK);

  function sameSpike(one: number, other: number): boolean {
    return state[other] === SPIKE && score[one]! * score[other]! > 0;
  }
}
