import type { ReactElement } from "react";

/** The same as the picture, to be read or copied. The first cell of a row names it. */
export interface ChartTable {
  readonly caption: string;
  readonly head: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** A picture with its two-part text alternative and its table: whoever cannot see the one has the others. */
export interface Chart {
  readonly picture: ReactElement;
  /** what it is a picture of, in a few words */
  readonly short: string;
  /** what it shows, in a sentence or two */
  readonly long: string;
  readonly table: ChartTable;
}

/** A place across a picture, as SVG takes it: pictures are as wide as their column, and nothing in them is stretched. */
export function across(percent: number): string {
  return `${Math.round(percent * 100) / 100}%`;
}
