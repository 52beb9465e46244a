import type { GridRow } from "#server/terms/grid";
import { type Choice, holds, type Problem, type ProblemCode } from "#server/terms/problem";
import { type Column, cellAt } from "../columns/column";

const NOTHING: readonly Problem[] = [];

/** Collects what there is to say about one row. */
export class Reasons {
  private said: Problem[] | null = null;
  private readonly sheet: string;
  private readonly row: GridRow;

  constructor(sheet: string, row: GridRow) {
    this.sheet = sheet;
    this.row = row;
  }

  get list(): readonly Problem[] {
    return this.said ?? NOTHING;
  }

  /** A reason about a cell, with the cell as written unless another text is given; about the whole row without a column. */
  add(code: ProblemCode, column: Column | null, choices: readonly Choice[] = [], text?: string): void {
    const at = { sheet: this.sheet, row: this.row.row, column: column?.column ?? null };
    const said = text ?? (column === null ? "" : cellAt(this.row, column.index).text);
    this.said ??= [];
    this.said.push(choices.length === 0 ? { code, at, text: said } : { code, at, text: said, choices });
  }

  /** True when something of this kind was said: "mass-", "fuel-". */
  speakOf(kind: string): boolean {
    for (const { code } of this.list) if (code.startsWith(kind)) return true;
    return false;
  }

  holdTheRow(): boolean {
    for (const { code } of this.list) if (holds(code)) return true;
    return false;
  }
}

/** Texts to put in, where nothing is known of the yield that would follow. */
export function choicesOf(puts: readonly string[]): Choice[] {
  return puts.map((put) => ({ put, yieldThen: null }));
}
