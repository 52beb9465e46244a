import type { Changes } from "#db/queries/recorded";
import type { TakenBack } from "./takeBack";

/** A dried weight whose load was taken back: held once more, until a log brings the load again. */
export function waitingAgain(row: TakenBack["waiting"][number]): NonNullable<Changes["rows"]>[number] {
  const at = { sheet: row.sheet, row: row.row, column: null };
  return {
    ...row,
    fate: "held",
    driedOnly: true,
    reasons: [{ code: "dried-without-load", at, text: "" }],
  };
}
