import type { Fault } from "#server/terms/fault";
import type { RowOnGrid } from "#server/terms/row";
import { decimalOf, plus } from "../values/exact";
import { columnOf, kgOf, type Load, loadsOf, placeOf, pooled, rowNumbers, stepOf } from "./loads";

/** Below this the intercept is handling and scale, not a bucket; a line must fit so well: common practice. */
const LEAST_KG = 0.3;
const LEAST_FIT = 0.9;
/** Where fresh weights differ by less than this share of their mean, they are a recipe: there is no slope to read. */
const LEAST_SPREAD = 0.05;

/**
 * A container left in both weights, from the line of dried on fresh: true yield y and container t give
 * dried = y · fresh + t · (1 − y).
 *
 * Fresh 9, 11, 13 kg and dried 0.32 · fresh + 0.68: slope 0.32, intercept 0.68, container 0.68 / (1 − 0.32) = 1 kg.
 * Only loads that count: one weight in grams would draw the line its own way. Not where the fresh weight is fixed by recipe, and not where the intercept lies within a few of its standard errors.
 */
export function containerInBoth(sheet: string, rows: readonly RowOnGrid[]): Fault[] {
  const loads = loadsOf(rows).filter(({ row, dried }) => row.fate === "counted" && dried.value > 0);
  const line = lineThrough(loads.map(kgOf));
  if (line === null || line.interceptKg <= LEAST_KG || line.rSquared <= LEAST_FIT) return [];
  if (line.slope < 0.15 || line.slope > 0.5 || line.interceptKg <= errorsAsked(loads.length) * line.interceptError)
    return [];
  const step = stepOf(loads.map(({ dried }) => dried));
  const containerKg = line.interceptKg / (1 - line.slope);
  const taken = decimalOf(Number((Math.round(containerKg / step) * step).toFixed(6)));
  const without = loads.map(kgOf).map(({ freshKg, driedKg }) => ({
    freshKg: freshKg - Number(taken),
    driedKg: driedKg - Number(taken),
  }));
  if (without.some(({ driedKg }) => driedKg <= 0)) return [];
  const { slope, interceptKg, rSquared } = line;
  return [
    {
      code: "container-in-both",
      evidence: { loads: loads.length, slope, interceptKg, rSquared, containerKg },
      sheet,
      rows: rowNumbers(loads),
      yieldNow: pooled(loads.map(kgOf)),
      yieldThen: pooled(without),
      answers: { cells: Object.fromEntries(loads.flatMap((load) => putsOf(load, taken))) },
    },
  ];
}

/** So many standard errors away from nothing: three, and more for few loads, whose errors are themselves not well known. */
function errorsAsked(loads: number): number {
  return 3 * (1 + 8 / (loads - 2));
}

function putsOf({ row, fresh, dried }: Load, taken: string): [string, string][] {
  const less = [
    [columnOf(row, "fresh"), fresh],
    [columnOf(row, "dried"), dried],
  ] as const;
  return less.flatMap(([column, weight]): [string, string][] =>
    column === null ? [] : [[placeOf(row, column), `${plus(weight.exact, `-${taken}`)} kg`]],
  );
}

interface Line {
  readonly slope: number;
  readonly interceptKg: number;
  readonly interceptError: number;
  readonly rSquared: number;
}

/** Least squares of dried on fresh; null with fewer than three loads or without spread in the fresh weights. */
function lineThrough(loads: readonly { readonly freshKg: number; readonly driedKg: number }[]): Line | null {
  const n = loads.length;
  if (n < 3) return null;
  const meanFresh = loads.reduce((sum, load) => sum + load.freshKg, 0) / n;
  const meanDried = loads.reduce((sum, load) => sum + load.driedKg, 0) / n;
  let xx = 0;
  let xy = 0;
  let yy = 0;
  for (const { freshKg, driedKg } of loads) {
    xx += (freshKg - meanFresh) ** 2;
    xy += (freshKg - meanFresh) * (driedKg - meanDried);
    yy += (driedKg - meanDried) ** 2;
  }
  if (!(Math.sqrt(xx / n) > LEAST_SPREAD * meanFresh) || yy === 0) return null;
  const slope = xy / xx;
  const left = Math.max(0, yy - slope * xy);
  return {
    slope,
    interceptKg: meanDried - slope * meanFresh,
    interceptError: Math.sqrt((left / (n - 2)) * (1 / n + meanFresh ** 2 / xx)),
    rSquared: 1 - left / yy,
  };
}
