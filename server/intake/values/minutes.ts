import type { Quantity } from "#server/terms/batch";
import type { Cell } from "#server/terms/grid";
import { plain } from "#server/terms/headings/plain";
import type { ProblemCode } from "#server/terms/problem";
import { LONGEST_VALUE, type Mark, plainDigits, readNumber } from "./decimals";
import { decimalOf, quantity, times } from "./exact";
import { isAbsent, MISSING, TO_COME, UNITS } from "./words";

export interface MinutesMeasure {
  readonly unit: "min" | "h" | "s" | null;
  readonly mark: Mark | null;
}

export type MinutesRead =
  | { readonly kind: "minutes"; readonly minutes: Quantity }
  | { readonly kind: "absent" }
  | { readonly kind: "problem"; readonly code: ProblemCode; readonly puts: readonly string[] };

const HOUR = "(?:h|hr|hrs|hours?|heures?|horas?|jam|saa|std)";
const MINUTE = "(?:m|mn|min|mins|minutes?|minutos?|menit|dakika|dk|'|′|’)";
const HOURS_MINUTES = new RegExp(`^(\\d{1,2})\\s*${HOUR}\\.?\\s*(\\d{1,2})?\\s*${MINUTE}?\\.?$`, "i");
const WORD_FIRST = /^saa\s+(\d{1,2})(?:\s+(?:na\s+)?(?:dk|dakika)\s+(\d{1,2}))?$/i;
const COLONS = /^(?:1899-12-3[01]|1900-01-0[01])?\s*(\d{1,3}):([0-5]\d)(?::([0-5]\d)(?:\.0+)?)?$/;
const WITH_UNIT = /^([\d.,]+)\s*(\p{L}+|'|′)\.?$/u;
const RANGE = /^(\d{1,3})\s*(?:-|–|à|to|a)\s*(\d{1,3})$/;

/** Minutes that a cell says, in any of the ways a duration is written; "1.20" alone is never guessed. */
export function readMinutes(cell: Cell, measure: MinutesMeasure): MinutesRead {
  const { value } = cell;
  if (value !== null && (cell.kind === "time" || (cell.kind === "day" && value < 3))) return ofDay(value);
  if (cell.kind === "error") return problem("minutes-not-a-number");
  if (cell.kind === "number" && value !== null) {
    if (value > 0 && value < 1 && String(value).length > 5) return ofDay(value);
    return bare(decimalOf(value), measure);
  }
  if (cell.text.length > LONGEST_VALUE) return problem("minutes-not-a-number");
  const text = plainDigits(cell.text);
  if (isAbsent(text)) return { kind: "absent" };
  const number = readNumber(text);
  if (number.kind === "number") return bare(number.exact, measure, text);
  if (number.kind === "either" && measure.mark !== null)
    return bare(measure.mark === "." ? number.point : number.comma, measure);
  if (number.kind === "either")
    return problem(
      "minutes-unclear",
      [number.point, number.comma].map((n) => `${n} min`),
    );
  if (number.kind === "doubtful") return problem("minutes-not-a-number", [`${number.exact} min`]);
  return inWords(text);
}

function inWords(text: string): MinutesRead {
  const parts = HOURS_MINUTES.exec(text) ?? WORD_FIRST.exec(text);
  if (parts) return minutes(String(Number(parts[1]) * 60 + Number(parts[2] ?? 0)));
  const colons = COLONS.exec(text);
  if (colons) return ofSeconds(Number(colons[1]) * 3600 + Number(colons[2]) * 60 + Number(colons[3] ?? 0));
  const found = WITH_UNIT.exec(text);
  if (found) {
    const unit = /^['′]$/.test(found[2] ?? "") ? "min" : UNITS.get(plain(found[2] ?? ""));
    const number = readNumber(found[1] ?? "");
    if (number.kind === "number" && unit === "min") return minutes(number.exact);
    if (number.kind === "number" && unit === "h") return minutes(times(number.exact, "60"));
    if (number.kind === "number" && unit === "s") return ofSeconds(Number(number.exact));
  }
  const range = RANGE.exec(text);
  if (range) return problem("minutes-unclear", [`${(Number(range[1]) + Number(range[2])) / 2} min`]);
  const words = plain(text);
  if (MISSING.has(words) || TO_COME.has(words)) return { kind: "absent" };
  return problem("minutes-not-a-number");
}

/** A number without a unit. Two decimals below sixty may be hours and minutes written with a point. */
function bare(exact: string, measure: MinutesMeasure, asWritten = exact): MinutesRead {
  if (exact.startsWith("-")) return problem("minutes-not-a-number");
  const short = /^(\d)[.,]([0-5]\d)$/.exec(asWritten);
  if (short) {
    const hours = `${exact} h`;
    return problem("minutes-unclear", [`${short[1]}h${short[2]}`, hours]);
  }
  if (measure.unit === "h") return minutes(times(exact, "60"));
  if (measure.unit === "s") return ofSeconds(Number(exact));
  if (measure.unit === null)
    return exact === "0" ? minutes("0") : problem("minutes-unclear", [`${exact} min`, `${exact} h`]);
  if (exact.includes(".") && Number(exact) < 5) {
    return Number(exact) < 1 && exact.length > 5
      ? ofDay(Number(exact))
      : problem("minutes-unclear", [`${exact} h`, `${exact} min`]);
  }
  return minutes(exact);
}

/** A share of a day, to the nearest second: 0.0555556 is 80 minutes. */
function ofDay(share: number): MinutesRead {
  return share < 0 ? problem("minutes-not-a-number") : ofSeconds(Math.round(share * 86_400));
}

function ofSeconds(seconds: number): MinutesRead {
  return minutes(decimalOf(seconds % 6 === 0 ? seconds / 60 : Math.round((seconds * 10_000) / 60) / 10_000));
}

function minutes(exact: string): MinutesRead {
  return { kind: "minutes", minutes: quantity(exact) };
}

function problem(code: ProblemCode, puts: readonly string[] = []): MinutesRead {
  return { kind: "problem", code, puts };
}
