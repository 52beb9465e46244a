import type { ProblemCode } from "#server/terms/problem";
import type { Meaning } from "#server/terms/row";
import { isAbsent } from "../values/words";
import type { MassesRead } from "./masses";
import { saysNothingProduced } from "./structure";
import type { RowAtHand, TableAtHand } from "./table";

/** A template may come with these filled in before anything happens. */
const PREPARED: ReadonlySet<Meaning> = new Set([
  "day",
  "batch-number",
  "site",
  "pan",
  "method",
  "fuel-type",
  "harvest",
  "operator",
]);
const DONE: ReadonlySet<Meaning> = new Set(["minutes", "start", "end", "loads"]);
const ZERO = /^0+(?:[.,]0*)?$/;
const WEIGHTS: ReadonlySet<Meaning> = new Set(["fresh", "dried", "loads", "minutes", "rejects"]);

/** What a row without weights and fuel is: a closed day, a prepared but empty line, a note; or work without a weight. */
export function withoutWeights(table: TableAtHand, row: RowAtHand, { fresh }: MassesRead): ProblemCode {
  const said = table.columns.filter((column) => !isAbsent(row.raw.at(column.index).text.trim()));
  const isDay = said.some(({ meaning, index }) => meaning === "day" && table.days(row.raw.at(index)).kind === "day");
  const worked = said.filter(({ meaning }) => meaning !== null && DONE.has(meaning));
  const isNothing = worked.every(({ index }) => ZERO.test(row.raw.at(index).text.trim()));
  if (isNothing && (worked.length > 0 || fresh.kind === "mass" || saysNothingProduced(row.raw.cells))) {
    return "nothing-produced-row";
  }
  if (!isNothing && (isDay || said.length > 2)) return "nothing-to-count";
  const prepared = said.every(({ meaning }) => meaning !== null && PREPARED.has(meaning));
  return prepared && (isDay || said.every(({ meaning }) => meaning !== "day")) ? "blank-row" : "note-row";
}

/** True when the row says something in a column that nobody has explained yet and that may be a weight or the day. */
export function waitsForColumn(table: TableAtHand, row: RowAtHand): boolean {
  return table.holding.some((column) => !isAbsent(row.raw.at(column.index).text.trim()));
}

function isWeight({ columns, fuels }: TableAtHand, index: number): boolean {
  const meaning = columns[index]?.meaning ?? null;
  return (meaning !== null && WEIGHTS.has(meaning)) || fuels.some((fuel) => fuel.index === index);
}

/** Only weights and counts are filled in, as in a row of sums. */
export function hasOnlyWeights(table: TableAtHand, row: RowAtHand): boolean {
  for (let index = 0; index < row.raw.width; index++)
    if (!isWeight(table, index) && row.raw.at(index).text.trim() !== "") return false;
  return true;
}
