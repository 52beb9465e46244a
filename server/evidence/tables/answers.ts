import type { Answers } from "#server/terms/row";
import type { TableOf } from "../table";

/** One answer of a person to what a log left open. */
export interface Answer {
  readonly asked: "day-order" | "decimal-mark" | "column-meaning" | "column-unit" | "cell" | "set-aside";
  /** "June!C14", "June!C" or "June!14"; null where the whole log is meant */
  readonly place: string | null;
  readonly put: string | null;
}

export interface AnswerItem extends Answer {
  readonly site: string | null;
  readonly log: string;
  readonly ledgerIndex: number;
}

/** Answers one by one, the whole log's first, then by what was asked and by place. */
export function answersListed({ dayOrder, decimalMark, meanings, units, cells, setAside }: Answers): Answer[] {
  const keyed = (asked: Answer["asked"], puts: Readonly<Record<string, string>> = {}): Answer[] =>
    Object.keys(puts)
      .sort()
      .map((place) => ({ asked, place, put: puts[place] ?? null }));
  return [
    ...(dayOrder === undefined ? [] : [{ asked: "day-order" as const, place: null, put: dayOrder }]),
    ...(decimalMark === undefined ? [] : [{ asked: "decimal-mark" as const, place: null, put: decimalMark }]),
    ...keyed("column-meaning", meanings),
    ...keyed("column-unit", units),
    ...keyed("cell", cells),
    ...[...(setAside ?? [])].sort().map((place) => ({ asked: "set-aside" as const, place, put: null })),
  ];
}

export const answersTable: TableOf<AnswerItem> = {
  name: "answers",
  says: "What a person answered where a log was not clear. Where a batch's value is not what its cell says, the answer stands here.",
  columns: [
    {
      name: "site",
      kind: "text",
      unit: null,
      says: "code of the site; empty: a log of the programme",
      of: ({ site }) => site,
    },
    { name: "log", kind: "text", unit: null, says: "sending slip of the log", of: ({ log }) => log },
    {
      name: "asked",
      kind: "text",
      unit: null,
      says: "day-order, decimal-mark, column-meaning, column-unit, cell or set-aside",
      of: ({ asked }) => asked,
    },
    {
      name: "place",
      kind: "text",
      unit: null,
      says: "sheet, then column and row; empty: the whole log",
      of: ({ place }) => place,
    },
    {
      name: "put",
      kind: "text",
      unit: null,
      says: "what is read in the place of what is written",
      of: ({ put }) => put,
    },
    {
      name: "ledger_index",
      kind: "whole",
      unit: null,
      says: "record of the reading with this answer",
      of: ({ ledgerIndex }) => ledgerIndex,
    },
  ],
};
