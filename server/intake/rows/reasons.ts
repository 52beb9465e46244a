import type { GridRow } from "#server/terms/grid";
import { CAN_STAND, type Choice, holds, type Problem, type ProblemCode } from "#server/terms/problem";
import { type Column, CYLINDERS, FUEL_MEANINGS } from "../columns/column";

const NOTHING: readonly Problem[] = [];

/** Collects what there is to say about one row. */
export class Reasons {
  private said: Problem[] | null = null;
  private readonly sheet: string;
  private readonly row: GridRow;
  private readonly accepted: ReadonlySet<string> | null;

  /** `accepted`: the cells and rows that stand as they are written, as answers name them */
  constructor(sheet: string, row: GridRow, accepted: ReadonlySet<string> | null = null) {
    this.sheet = sheet;
    this.row = row;
    this.accepted = accepted;
  }

  get list(): readonly Problem[] {
    return this.said ?? NOTHING;
  }

  /** A reason about a cell, with the cell as written unless another text is given; about the whole row without a column. */
  add(code: ProblemCode, column: Column | null, choices: readonly Choice[] = [], text?: string): void {
    const at = { sheet: this.sheet, row: this.row.row, column: column?.column ?? null };
    const said = text ?? (column === null ? "" : this.row.at(column.index).text);
    this.said ??= [];
    if (this.accepted !== null && this.stands(this.accepted, code, column)) this.stand(code, column);
    else this.said.push(choices.length === 0 ? { code, at, text: said } : { code, at, text: said, choices });
  }

  /** Somebody accepted what is written, whatever the doubt: the flag that stays with the row. */
  stand(doubt: ProblemCode, column: Column | null): void {
    const at = { sheet: this.sheet, row: this.row.row, column: column?.column ?? null };
    const text = column === null ? "" : this.row.at(column.index).text;
    this.said ??= [];
    this.said.push({ code: "accepted-as-written", at, text, doubt });
  }

  /** Fuel that cannot be read does not stand: a day without it would look thrifty. */
  private stands(accepted: ReadonlySet<string>, code: ProblemCode, column: Column | null): boolean {
    if (!CAN_STAND.has(code)) return false;
    const meaning = column?.meaning ?? null;
    if (meaning !== null && (FUEL_MEANINGS.has(meaning) || CYLINDERS.has(meaning))) return false;
    return accepted.has(`${this.sheet}!${column?.column ?? ""}${this.row.row}`);
  }

  /** True when something of this kind was said: "mass-", "fuel-". */
  speakOf(kind: string): boolean {
    if (this.said === null) return false;
    for (const { code } of this.said) if (code.startsWith(kind)) return true;
    return false;
  }

  /** True when the weight in this column may be thousand times too large or too small: it is added up nowhere. */
  doubtUnit({ column }: Column): boolean {
    if (this.said === null) return false;
    for (const { code, at } of this.said) if (at.column === column && code === "unit-slip-suspected") return true;
    return false;
  }

  holdTheRow(): boolean {
    if (this.said === null) return false;
    for (const { code } of this.said) if (holds(code)) return true;
    return false;
  }
}

/** Texts to put in, where nothing is known of the yield that would follow. */
export function choicesOf(puts: readonly string[]): Choice[] {
  return puts.map((put) => ({ put, yieldThen: null }));
}
