import type { Quantity } from "#server/terms/batch";
import type { Cell } from "#server/terms/grid";
import { type Mark, readNumber } from "./decimals";
import { quantity, times } from "./exact";
import { isAbsent } from "./words";

/** What a meter showed, as a share for one of moisture, so that "8 %" is 0.08; "unread" where no number can be told. */
export function readMeter({ text }: Cell, mark: Mark | null, isMoisture: boolean): Quantity | null | "unread" {
  const trimmed = text.trim();
  if (isAbsent(trimmed)) return null;
  const exact = exactOf(trimmed.replace(/\s*%$/, ""), mark);
  if (exact === null || exact.startsWith("-")) return "unread";
  return quantity(isMoisture && (trimmed.endsWith("%") || Number(exact) > 1) ? times(exact, "0.01") : exact);
}

function exactOf(text: string, mark: Mark | null): string | null {
  const read = readNumber(text);
  if (read.kind === "number") return read.exact;
  if (read.kind !== "either" || mark === null) return null;
  return mark === "." ? read.point : read.comma;
}
