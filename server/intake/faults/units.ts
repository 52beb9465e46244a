import type { Fault } from "#server/terms/fault";
import type { Hints, RowOnGrid } from "#server/terms/row";
import { KG_IN_POUND } from "../values/masses";
import { columnOf, isPlausible, kgOf, type Load, loadsOf, middle, placeOf, pooled, rowNumbers } from "./loads";

/** Weights that are so many times the usual ones are pounds; loads differ from month to month. */
const TIMES = { from: 1.9, to: 2.5 };
const FEWEST = 5;

/** Grams read as kilograms, or the other way round: each such row is held; together they show which column it is. */
export function gramsForKilograms(sheet: string, rows: readonly RowOnGrid[]): Fault[] {
  const loads = loadsOf(rows);
  const isSlip = ({ row }: Load) => row.reasons.some(({ code }) => code === "unit-slip-suspected");
  const slips = loads.filter(isSlip);
  if (slips.length < 2) return [];
  const usual = middle(loads.filter((load) => !isSlip(load)).map(({ fresh }) => fresh.value));
  const put: Record<string, string> = {};
  const then: { freshKg: number; driedKg: number }[] = [];
  for (const { row, fresh, dried } of slips) {
    const factor = dried.value > fresh.value ? 0.001 : 1000;
    const onDried = { freshKg: fresh.value, driedKg: dried.value * factor };
    const onFresh = { freshKg: fresh.value / factor, driedKg: dried.value };
    const isDried = usual !== null && distance(onDried.freshKg, usual) < distance(onFresh.freshKg, usual);
    const column = columnOf(row, isDried ? "dried" : "fresh");
    const choice = row.reasons.find(({ code, at }) => code === "unit-slip-suspected" && at.column === column)
      ?.choices?.[0];
    if (column !== null && choice !== undefined) put[placeOf(row, column)] = choice.put;
    then.push(isDried ? onDried : onFresh);
  }
  return [
    {
      code: "grams-for-kilograms",
      evidence: { loads: slips.length, of: loads.length },
      sheet,
      rows: rowNumbers(slips),
      yieldNow: pooled(slips.map(kgOf)),
      yieldThen: pooled(then),
      // without a sound load beside them nothing tells which of the two weights it is
      answers: usual === null || Object.keys(put).length < slips.length ? null : { cells: put },
    },
  ];
}

/** How far apart two weights are, as a factor. */
function distance(a: number, b: number): number {
  return Math.abs(Math.log(a / b));
}

/** All weights 2.2 times the site's usual ones, or dried weights that make a yield of 2.2 times a plausible one. */
export function poundsForKilograms(sheet: string, rows: readonly RowOnGrid[], hints: Hints): Fault[] {
  const loads = loadsOf(rows).filter(({ row }) => !saysUnit(row));
  const [first] = loads;
  const fresh = middle(loads.map((load) => load.fresh.value));
  if (first === undefined || fresh === null || loads.length < FEWEST) return [];
  const shares = loads.map((load) => load.dried.value / load.fresh.value);
  const columns = { fresh: columnOf(first.row, "fresh"), dried: columnOf(first.row, "dried") };
  const now = pooled(loads.map(kgOf));
  const common = { code: "pounds-for-kilograms", sheet, rows: rowNumbers(loads), yieldNow: now } as const;
  const driedPerFresh = middle(shares) ?? 0;
  const times = hints.usualFreshKg === undefined ? null : fresh / hints.usualFreshKg;
  const evidence = { loads: loads.length, usualTimes: times, driedPerFresh, inPounds: driedPerFresh * KG_IN_POUND };
  if (times !== null && times >= TIMES.from && times <= TIMES.to && shares.every(isPlausible)) {
    const units = unitsOf(sheet, [columns.fresh, columns.dried]);
    return [{ ...common, evidence, yieldThen: now, answers: units }];
  }
  const inPounds = shares.filter((share) => share > 0.5 && isPlausible(share * KG_IN_POUND));
  if (inPounds.length * 10 < loads.length * 9 || now === null) return [];
  const units = unitsOf(sheet, [columns.dried]);
  return [{ ...common, evidence, yieldThen: now * KG_IN_POUND, answers: units }];
}

function saysUnit({ reasons }: RowOnGrid): boolean {
  return reasons.some(({ code }) => code === "unit-from-cell");
}

function unitsOf(sheet: string, columns: readonly (string | null)[]) {
  return {
    units: Object.fromEntries(columns.flatMap((column) => (column === null ? [] : [[`${sheet}!${column}`, "lb"]]))),
  };
}
