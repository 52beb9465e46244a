import type { Choice } from "#server/terms/problem";
import type { Column } from "../columns/column";
import { type MassRead, readMass } from "../values/masses";
import { measureOf } from "./cellReaders";
import { judgePair, yieldOf } from "./judgePair";
import type { Reasons } from "./reasons";
import { cellIn, isPut, type RowAtHand, type TableAtHand } from "./table";

export interface MassesRead {
  readonly fresh: MassRead;
  readonly dried: MassRead;
}

const BLANK: MassRead = { kind: "absent", why: "blank" };
const NO_CONTAINERS = {};

/** Reads the mass that a column of this row says; absent where the table has no such column. */
export function massAt(table: TableAtHand, row: RowAtHand, column: Column | undefined): MassRead {
  if (column === undefined) return BLANK;
  if (isPut(table, row, column)) return readMass(cellIn(row, column), measureOf(column, table.hints, "."));
  return table.read.mass(column, row);
}

export function massesOf(table: TableAtHand, row: RowAtHand): MassesRead {
  return {
    fresh: massAt(table, row, table.byMeaning.fresh),
    dried: massAt(table, row, table.byMeaning.dried),
  };
}

/** Says what is wrong or worth knowing of both masses, with what each choice would make of the yield. */
export function judgeMasses(table: TableAtHand, row: RowAtHand, { fresh, dried }: MassesRead, reasons: Reasons): void {
  const freshColumn = table.byMeaning.fresh ?? null;
  const driedColumn = table.byMeaning.dried ?? null;
  if (fresh.kind === "problem") reasons.add(fresh.code, freshColumn, choicesFor("fresh", fresh.puts, dried));
  if (dried.kind === "problem") reasons.add(dried.code, driedColumn, choicesFor("dried", dried.puts, fresh));
  sayUnit(freshColumn, fresh, reasons);
  sayUnit(driedColumn, dried, reasons);
  if (fresh.kind !== "mass" || dried.kind !== "mass" || freshColumn === null || driedColumn === null) return;
  const put = isPut(table, row, freshColumn) || isPut(table, row, driedColumn);
  judgePair({ mass: fresh.mass, column: freshColumn }, { mass: dried.mass, column: driedColumn }, put, reasons);
}

function sayUnit(column: Column | null, read: MassRead, reasons: Reasons): void {
  if (read.kind !== "mass" || column === null) return;
  if (read.unitFromCell) reasons.add("unit-from-cell", column);
  else if (column.unitFrom === "site") reasons.add("unit-from-site", column);
}

function choicesFor(which: "fresh" | "dried", puts: readonly string[], other: MassRead): Choice[] {
  return puts.map((put) => {
    const kg = kgOf(
      readMass({ text: put, kind: "text", value: null }, { unit: "kg", mark: ".", containers: NO_CONTAINERS }),
    );
    return { put, yieldThen: which === "fresh" ? yieldOf(kgOf(other), kg) : yieldOf(kg, kgOf(other)) };
  });
}

function kgOf(read: MassRead): number | null {
  return read.kind === "mass" ? read.mass.value : null;
}
