import type { BatchWritten, Grain } from "#server/terms/batch";
import type { Column } from "../columns/column";
import { type MassesRead, massAt } from "./masses";
import { countAt, loadsAt, methodAt, readingAt, testAt, textAt, yesAt } from "./otherCells";
import type { Reasons } from "./reasons";
import { numbersOfSet } from "./setsPlain";
import type { RowAtHand, TableAtHand } from "./table";
import { timesOf } from "./times";

/** The batch that a row describes, as far as it can be read; what cannot is said among the reasons. */
export function batchOf(
  table: TableAtHand,
  row: RowAtHand,
  day: { readonly day: string; readonly minute: number | null },
  masses: MassesRead,
  reasons: Reasons,
): BatchWritten {
  const { fresh, dried } = masses;
  const { byMeaning } = table;
  const times = timesOf(table, row, day.minute, reasons);
  const number = textAt(table, row, byMeaning["batch-number"]);
  const loads = loadsAt(table, row, reasons) ?? (fresh.kind === "mass" ? (numbersOfSet(number)?.length ?? null) : null);
  const pan = textAt(table, row, byMeaning.pan) ?? table.panOfTable;
  return {
    day: day.day,
    number,
    pan,
    harvest: textAt(table, row, byMeaning.harvest),
    method: methodAt(table, row, reasons),
    grain: grainOf(table, loads, pan, number !== null || times.startMinute !== null),
    loads: loads ?? 1,
    fresh: fresh.kind === "mass" ? fresh.mass : null,
    dried: dried.kind === "mass" ? dried.mass : null,
    driedToCome: fresh.kind === "mass" && dried.kind === "absent" && dried.why !== "missing",
    startMinute: times.startMinute,
    endMinute: times.endMinute,
    minutes: times.minutes,
    rejects: sideMass(table, row, byMeaning.rejects, reasons),
    sandKg: sideMass(table, row, byMeaning["sand-kg"], reasons),
    sandCycle: countAt(table, row, byMeaning["sand-cycle"], reasons),
    newSand: yesAt(table, row, byMeaning["new-sand"], reasons),
    crushTest: testAt(table, row, byMeaning["crush-test"], reasons),
    crisp: testAt(table, row, byMeaning.crisp, reasons),
    colour: textAt(table, row, byMeaning.colour),
    moistureReading: readingAt(table, row, byMeaning["moisture-out"], reasons),
    waterActivity: readingAt(table, row, byMeaning["water-activity"], reasons),
  };
}

/** Several loads in one row: a day of a pan or site, or, with a number or a start of its own, one set of loads. */
function grainOf(table: TableAtHand, loads: number | null, pan: string | null, named: boolean): Grain {
  const tally = table.hints.tally === true;
  if (!tally && (loads === null || loads === 1)) return "load";
  if (!tally && named) return "set";
  return pan === null ? "site-day" : "pan-day";
}

/** Masses that no figure hangs on: what cannot be read is noted and does not hold the row. */
function sideMass(table: TableAtHand, row: RowAtHand, column: Column | undefined, reasons: Reasons) {
  if (column === undefined) return null;
  const read = massAt(table, row, column);
  if (read.kind === "problem") reasons.add("cell-not-read", column);
  return read.kind === "mass" ? read.mass : null;
}
