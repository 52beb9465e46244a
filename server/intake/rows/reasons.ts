import type { Choice, Place, Problem, ProblemCode } from "#server/terms/problem";
import { holds } from "#server/terms/problem";
import type { Column } from "../columns/column";

/** Collects what there is to say about one row. */
export interface Reasons {
  readonly list: Problem[];
  add(code: ProblemCode, column: Column | null, text: string, choices?: readonly Choice[]): void;
}

export function reasonsOf(sheet: string, row: number): Reasons {
  const list: Problem[] = [];
  return {
    list,
    add(code, column, text, choices = []) {
      const at: Place = { sheet, row, column: column?.column ?? null };
      list.push(choices.length === 0 ? { code, at, text } : { code, at, text, choices });
    },
  };
}

export function isHeld(reasons: readonly Problem[]): boolean {
  return reasons.some((reason) => holds(reason.code));
}
