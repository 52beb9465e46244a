import type { z } from "zod";
import { TYPED_COLUMNS, typedSheet } from "#server/api/typing";
import { pack, unpack } from "./said";

export type Typed = z.infer<typeof typedSheet>;

/** Lines of an empty grid, and how many come when more are wanted. */
export const LINES = 15;
export const MOST_LINES = 200;

/** What the form of the grid carries: cells are named by line and column, "3.fresh". Lines without anything are left out. */
export function typedOf(fields: Readonly<Record<string, string>>): Typed | null {
  const lines = Array.from({ length: linesOf(fields.lines) }, (_, at) => ({
    line: at + 1,
    cells: Object.fromEntries(
      TYPED_COLUMNS.flatMap((column) => {
        const text = fields[`${at + 1}.${column}`]?.trim() ?? "";
        return text === "" ? [] : [[column, text]];
      }),
    ),
  })).filter(({ cells }) => Object.keys(cells).length > 0);
  return typedSheet.safeParse({ massUnit: fields.massUnit, fuel: fields.fuel, lines }).data ?? null;
}

/** How many lines a grid has: what its address or form says, within bounds. */
export function linesOf(said: string | undefined): number {
  const lines = Number.parseInt(said ?? "", 10);
  return Number.isNaN(lines) ? LINES : Math.min(MOST_LINES, Math.max(LINES, lines));
}

/** How many lines a grid has after somebody asked for more. */
export const moreLines = (lines: number): number => Math.min(MOST_LINES, lines + LINES);

/** The line after the last in which something was typed; in a full grid one that comes. */
export function nextLine(typed: Typed): number {
  return 1 + typed.lines.reduce((last, { line }) => Math.max(last, line), 0);
}

export const packTyped = (typed: Typed): string | null => pack(typed);

/** What was typed before more lines were asked for; null where the address carries nothing. */
export const unpackTyped = (packed: string | undefined): Typed | null =>
  typedSheet.safeParse(unpack(packed)).data ?? null;
