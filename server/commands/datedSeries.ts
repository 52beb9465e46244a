import { isUnreadable, readGrid } from "#server/intake/grid/readGrid";
import { readSettings } from "#server/settings";
import { isDay } from "#server/terms/days";
import { WrongData } from "./command";
import { refusalInWords } from "./words";

/** A dated series as a file gives it: plain values, or ratios of a numerator and a denominator. */
export interface DatedSeries {
  readonly kind: "value" | "ratio";
  readonly points: readonly {
    readonly day: string;
    readonly value: number;
    readonly numerator: number;
    readonly denominator: number;
  }[];
}

/** Reads columns day, value, or day, numerator, denominator. Throws WrongData with the line that cannot be read. */
export function datedSeries(bytes: Uint8Array, name: string): DatedSeries {
  const grid = readGrid(bytes, name, readSettings().bounds);
  if (isUnreadable(grid)) throw new WrongData(refusalInWords(grid));
  const [heading, ...rows] = (grid.sheets[0]?.rows ?? []).map(({ row, cells }) => ({
    row,
    texts: cells.map(({ text }) => text.trim()),
  }));
  const names = heading?.texts.map((text) => text.toLowerCase()) ?? [];
  const at = (column: string) => names.indexOf(column);
  const isRatio = at("numerator") >= 0 && at("denominator") >= 0;
  if (at("day") < 0 || !(isRatio || at("value") >= 0))
    throw new WrongData("The headings are to be day, numerator, denominator; or day, value.");
  const points = rows.map(({ row, texts }) => {
    const number = (column: string) => {
      const text = texts[at(column)] ?? "";
      const value = Number(text);
      if (text === "" || !Number.isFinite(value))
        throw new WrongData(`Row ${row}: ${column} is not a number (“${text}”).`);
      return value;
    };
    const day = texts[at("day")] ?? "";
    if (!isDay(day)) throw new WrongData(`Row ${row}: “${day}” is not a day such as 2031-03-31.`);
    if (!isRatio) return { day, value: number("value"), numerator: number("value"), denominator: 1 };
    const [numerator, denominator] = [number("numerator"), number("denominator")];
    return { day, value: numerator / denominator, numerator, denominator };
  });
  return { kind: isRatio ? "ratio" : "value", points };
}
