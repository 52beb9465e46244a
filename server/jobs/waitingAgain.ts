import type { Changes } from "#db/queries/recorded";
import { holds, type Problem } from "#server/terms/problem";
import type { TakenBack } from "./takeBack";

/**
 * A row that leaned on a batch which was taken back: held once more, until a log brings the load again or, where it tells
 * loads itself, until it is counted again.
 */
export function waitingAgain(row: TakenBack["waiting"][number]): NonNullable<Changes["rows"]>[number] {
  const at = { sheet: row.sheet, row: row.row, column: null };
  const why: Problem = { code: row.driedOnly ? "dried-without-load" : "match-doubtful", at, text: "" };
  return { ...row, fate: "held", reasons: [...row.reasons.filter(({ code }) => !holds(code)), why] };
}
