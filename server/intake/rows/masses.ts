import type { Quantity } from "#server/terms/batch";
import type { Choice, ProblemCode } from "#server/terms/problem";
import { type Column, cellAt } from "../columns/column";
import { times } from "../values/exact";
import { type MassRead, readMass } from "../values/masses";
import type { Reasons } from "./reasons";
import { isPut, type RowAtHand, type TableAtHand } from "./table";

export interface MassesRead {
  readonly fresh: MassRead;
  readonly dried: MassRead;
}

const BLANK: MassRead = { kind: "absent", why: "blank" };

/** Reads the mass that a column of this row says; absent where the table has no such column. */
export function massAt(table: TableAtHand, row: RowAtHand, column: Column | undefined): MassRead {
  if (column === undefined) return BLANK;
  const { hints } = table;
  return readMass(row.cells[column.index] ?? cellAt(row.raw, column.index), {
    unit: column.unit,
    mark: isPut(table, row, column) ? "." : column.decimalMark,
    containers: hints.containers ?? {},
  });
}

export function massesOf(table: TableAtHand, row: RowAtHand): MassesRead {
  return {
    fresh: massAt(table, row, table.byMeaning.get("fresh")),
    dried: massAt(table, row, table.byMeaning.get("dried")),
  };
}

/** Says what is wrong or worth knowing of both masses, with what each choice would make of the yield. */
export function judgeMasses(table: TableAtHand, row: RowAtHand, { fresh, dried }: MassesRead, reasons: Reasons): void {
  const freshColumn = table.byMeaning.get("fresh") ?? null;
  const driedColumn = table.byMeaning.get("dried") ?? null;
  const kgOf = (put: string) => kgPut(put);
  judge(freshColumn, fresh, (put) => share(kgOfRead(dried), kgOf(put)));
  judge(driedColumn, dried, (put) => share(kgOf(put), kgOfRead(fresh)));
  if (fresh.kind === "mass" && dried.kind === "mass") compare(fresh.mass, dried.mass);

  function judge(column: Column | null, read: MassRead, yieldThen: (put: string) => number | null): void {
    const text = column === null ? "" : cellAt(row.raw, column.index).text;
    if (read.kind === "problem") {
      reasons.add(
        read.code,
        column,
        text,
        read.puts.map((put) => ({ put, yieldThen: yieldThen(put) })),
      );
    }
    if (read.kind !== "mass" || column === null) return;
    if (read.unitFromCell) reasons.add("unit-from-cell", column, text);
    else if (column.unitFrom === "site") reasons.add("unit-from-site", column, text);
  }

  /** What a person has put in stands, however odd; else what cannot be is held and what is rare is noted. */
  function compare(inMass: Quantity, outMass: Quantity): void {
    const ratio = share(outMass.value, inMass.value);
    const put = [freshColumn, driedColumn].some((column) => column !== null && isPut(table, row, column));
    const say = (code: ProblemCode, column: Column | null, choices: readonly Choice[] = []) =>
      reasons.add(code, column, column === null ? "" : cellAt(row.raw, column.index).text, choices);
    const unusual = ratio === null || ratio < USUAL_YIELD.from || ratio > USUAL_YIELD.to;
    if (put) {
      if (unusual) say("yield-unusual", driedColumn);
      return;
    }
    const yieldThen = ratio === null ? null : slip(ratio);
    if (yieldThen !== null) {
      const [onDried, onFresh] = ratio !== null && ratio > 1 ? ["0.001", "1000"] : ["1000", "0.001"];
      say("unit-slip-suspected", driedColumn, [{ put: `${times(outMass.exact, onDried)} kg`, yieldThen }]);
      say("unit-slip-suspected", freshColumn, [{ put: `${times(inMass.exact, onFresh)} kg`, yieldThen }]);
    } else if (outMass.value > inMass.value) say("out-more-than-in", driedColumn);
    else if (outMass.value === 0) say("dried-is-zero", driedColumn, [{ put: "0 kg", yieldThen: 0 }]);
    else if (unusual) say("yield-unusual", driedColumn);
  }
}

/** Out over in beyond which grams and kilograms were mixed, and the yield that must then result: common practice. */
const SLIP_ABOVE = 3;
const SLIP_BELOW = 0.01;
const USUAL_YIELD = { from: 0.2, to: 0.5 };

/** The yield if one of both weights was written in grams and read as kilograms; null when that makes no sense either. */
function slip(ratio: number): number | null {
  if (ratio >= SLIP_BELOW && ratio <= SLIP_ABOVE) return null;
  const then = ratio > 1 ? ratio / 1000 : ratio * 1000;
  return then >= USUAL_YIELD.from && then <= USUAL_YIELD.to ? then : null;
}

function kgOfRead(read: MassRead): number | null {
  return read.kind === "mass" ? read.mass.value : null;
}

function kgPut(put: string): number | null {
  return kgOfRead(readMass({ text: put, kind: "text", value: null }, { unit: "kg", mark: ".", containers: {} }));
}

function share(dried: number | null, fresh: number | null): number | null {
  return dried === null || fresh === null || fresh <= 0 ? null : dried / fresh;
}
