import type { Quantity } from "#server/terms/batch";
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

  function compare(inMass: Quantity, outMass: Quantity): void {
    const column = driedColumn;
    const text = column === null ? "" : cellAt(row.raw, column.index).text;
    const ratio = share(outMass.value, inMass.value);
    if (ratio !== null && (ratio > SLIP_ABOVE || ratio < SLIP_BELOW) && slips(ratio) !== null) {
      const yieldThen = slips(ratio);
      const [onDried, onFresh] = ratio > 1 ? ["0.001", "1000"] : ["1000", "0.001"];
      reasons.add("unit-slip-suspected", column, text, [{ put: `${times(outMass.exact, onDried)} kg`, yieldThen }]);
      const freshText = freshColumn === null ? "" : cellAt(row.raw, freshColumn.index).text;
      reasons.add("unit-slip-suspected", freshColumn, freshText, [
        { put: `${times(inMass.exact, onFresh)} kg`, yieldThen },
      ]);
    } else if (outMass.value > inMass.value) reasons.add("out-more-than-in", column, text);
    else if (ratio !== null && (ratio < USUAL_YIELD.from || ratio > USUAL_YIELD.to)) {
      reasons.add("yield-unusual", column, text);
    }
  }
}

/** Out over in beyond which grams and kilograms were mixed, and the yield that must then result: common practice. */
const SLIP_ABOVE = 3;
const SLIP_BELOW = 0.01;
const USUAL_YIELD = { from: 0.2, to: 0.5 };

/** The yield with one of both weights a thousand times off; null when that is not plausible either. */
function slips(ratio: number): number | null {
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
