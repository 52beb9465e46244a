import { BLANK, type Cell } from "#server/terms/grid";

/** A cell of delimited text. */
export function written(text: string): Cell {
  return text === "" ? BLANK : { text, kind: "text", value: null };
}

/** A number, day or time of a spreadsheet. */
export function stored(value: number, kind: "number" | "day" | "time" = "number"): Cell {
  return { text: String(value), kind, value };
}
