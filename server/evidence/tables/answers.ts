import type { Role } from "#server/terms/person";
import type { Answers } from "#server/terms/row";
import type { TableOf } from "../table";

/** One answer of a person to what a log left open. */
export interface Answer {
  readonly asked:
    | "day-order"
    | "decimal-mark"
    | "clock"
    | "years"
    | "without-memory"
    | "day-of-sheet"
    | "heading-row"
    | "table-left-out"
    | "column-meaning"
    | "column-unit"
    | "fault"
    | "weighed-together"
    | "which-batch"
    | "cell"
    | "as-written"
    | "set-aside";
  /** "June!C14", "June!C" or "June!14"; null where the whole log is meant */
  readonly place: string | null;
  readonly put: string | null;
}

export interface AnswerItem extends Answer {
  readonly site: string | null;
  readonly log: string;
  readonly ledgerIndex: number;
  readonly person: string | null;
  readonly by: Role | null;
  readonly at: string | null;
  readonly from: string | null;
}

/** Answers one by one, the whole log's first, then by what was asked and by place. */
export function answersListed(answers: Answers): Answer[] {
  return [
    ...whole("day-order", answers.dayOrder),
    ...whole("decimal-mark", answers.decimalMark),
    ...whole("clock", answers.clock),
    ...whole("years", answers.years),
    ...whole("without-memory", answers.alone === true ? "yes" : undefined),
    ...keyed("day-of-sheet", answers.days),
    ...keyed("heading-row", answers.headings),
    ...places("table-left-out", answers.leftOut),
    ...keyed("column-meaning", answers.meanings),
    ...keyed("column-unit", answers.units),
    ...keyed("fault", answers.faults),
    ...(answers.together ?? []).map(([holder = null, ...others]) => ({
      asked: "weighed-together" as const,
      place: holder,
      put: others.join(" "),
    })),
    ...keyed("which-batch", answers.are),
    ...keyed("cell", answers.cells),
    ...places("as-written", answers.asWritten),
    ...places("set-aside", answers.setAside),
  ];
}

function whole(asked: Answer["asked"], put: string | undefined): Answer[] {
  return put === undefined ? [] : [{ asked, place: null, put }];
}

function keyed(asked: Answer["asked"], puts: Readonly<Record<string, string | number>> = {}): Answer[] {
  return Object.keys(puts)
    .sort()
    .map((place) => ({ asked, place, put: puts[place] === undefined ? null : String(puts[place]) }));
}

function places(asked: Answer["asked"], all: readonly string[] = []): Answer[] {
  return [...all].sort().map((place) => ({ asked, place, put: null }));
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
      says: "day-order, decimal-mark, clock, years, without-memory, day-of-sheet, heading-row, table-left-out, column-meaning, column-unit, fault, weighed-together, which-batch, cell, as-written or set-aside",
      of: ({ asked }) => asked,
    },
    {
      name: "place",
      kind: "text",
      unit: null,
      says: "sheet, then column and row; of a fault its kind before; empty: the whole log",
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
      says: "record of the first reading with this answer",
      of: ({ ledgerIndex }) => ledgerIndex,
    },
    {
      name: "settled_by",
      kind: "text",
      unit: null,
      says: "lead, officer or operator: as who the person counted the log with this answer",
      of: ({ by }) => by,
    },
    { name: "person", kind: "text", unit: null, says: "id of the person in the ledger", of: ({ person }) => person },
    { name: "settled_at", kind: "time", unit: null, says: "when, in UTC", of: ({ at }) => at },
    {
      name: "taken_over_from",
      kind: "text",
      unit: null,
      says: "sending slip of the earlier log that settled it; empty: it was answered for this log",
      of: ({ from }) => from,
    },
  ],
};
