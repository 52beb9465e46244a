import type { Cell, GridRow } from "#server/terms/grid";
import type { Hints } from "#server/terms/row";
import { plainDigits, readNumber } from "../values/decimals";
import { unitOf } from "../values/masses";
import { Remembered } from "../values/remembered";
import { type Column, CYLINDERS, FUEL_MEANINGS, MASSES } from "./column";
import type { Draft } from "./recogniseColumns";

type UnitFound = Pick<Column, "unit" | "unitFrom" | "unitUnknown">;

const NO_UNIT: UnitFound = { unit: null, unitFrom: null, unitUnknown: false };
const TIMES: ReadonlySet<string> = new Set(["min", "h", "s"]);

/** The unit of a column's bare numbers: an answer, else heading, units row, cells, what the site declared; never a guess. */
export function columnUnit(
  draft: Draft,
  rows: readonly GridRow[],
  hints: Hints,
  answer: string | undefined,
): UnitFound {
  const { meaning } = draft;
  if (meaning === null) return NO_UNIT;
  const wanted = kindOf(draft);
  if (wanted === null) return NO_UNIT;
  if (answer !== undefined) return from(unitOf(answer) ?? answer, "cells");
  if (draft.headingUnit !== null && fits(draft.headingUnit, wanted)) return from(draft.headingUnit, "heading");
  if (draft.rowUnit !== null && fits(draft.rowUnit, wanted)) return from(draft.rowUnit, "units-row");
  const bare = bareNumbers(rows, draft.index, wanted === "time");
  if (bare === null) return NO_UNIT;
  const declared = wanted === "mass" ? hints.massUnit : wanted === "fuel" ? hints.fuelUnit : hints.timeUnit;
  if (declared !== undefined && meaning !== "electricity") return from(declared, "site");
  // No load lasts ten hours, so bare numbers from ten on are minutes.
  if (wanted === "time" && bare.least >= 10) return from("min", "cells");
  return { unit: null, unitFrom: null, unitUnknown: true };
}

function kindOf({ meaning }: Draft): "mass" | "fuel" | "time" | null {
  if (meaning === null) return null;
  if (MASSES.has(meaning)) return "mass";
  if (FUEL_MEANINGS.has(meaning) || CYLINDERS.has(meaning)) return "fuel";
  return meaning === "minutes" ? "time" : null;
}

function fits(unit: string, wanted: "mass" | "fuel" | "time"): boolean {
  return wanted === "time" ? TIMES.has(unit) : !TIMES.has(unit);
}

function from(unit: string, unitFrom: UnitFound["unitFrom"]): UnitFound {
  return { unit, unitFrom, unitUnknown: false };
}

/** The least of the column's numbers that stand without a unit; null when there is none. */
function bareNumbers(rows: readonly GridRow[], index: number, isTime: boolean): { least: number } | null {
  const bare = new Remembered((cell) => bareNumber(cell, isTime));
  let least: number | null = null;
  for (const row of rows) {
    const value = bare.at(row, index);
    if (value !== null && value !== 0 && (least === null || value < least)) least = value;
  }
  return least === null ? null : { least };
}

function bareNumber({ kind, text, value }: Cell, isTime: boolean): number | null {
  if (kind === "blank" || kind === "time" || kind === "day") return null;
  // as a time "1.20" may be one hour twenty: it says nothing of the column
  if (isTime && /^\d[.,]\d\d$/.test(text.trim())) return null;
  return kind === "number" ? value : numberOf(text);
}

function numberOf(text: string): number | null {
  const read = readNumber(plainDigits(text));
  if (read.kind === "number") return Number(read.exact);
  return read.kind === "either" ? Number(read.point) : null;
}
