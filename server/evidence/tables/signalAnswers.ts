import type { TableOf } from "../table";

export interface SignalAnswerItem {
  readonly site: string | null;
  readonly method: string;
  readonly measure: string;
  readonly raisedOn: string;
  readonly direction: string;
  readonly kind: string;
  readonly from: string | null;
  readonly to: string | null;
  readonly days: readonly string[];
  readonly person: string;
  readonly reasonSealed: string;
  readonly ledgerIndex: number;
}

export const signalAnswersTable: TableOf<SignalAnswerItem> = {
  name: "signal-answers",
  says: "What people answered to these signals; of one signal the last answer stands. Reasons are sealed: only what stands for them is here.",
  columns: [
    {
      name: "site",
      kind: "text",
      unit: null,
      says: "code of the site; empty: what the sites of a method did together",
      of: ({ site }) => site,
    },
    { name: "method", kind: "text", unit: null, says: "drying method of the signal", of: ({ method }) => method },
    { name: "measure", kind: "text", unit: null, says: "measure of the signal", of: ({ measure }) => measure },
    { name: "raised_on", kind: "day", unit: null, says: "day that raised it", of: ({ raisedOn }) => raisedOn },
    { name: "direction", kind: "text", unit: null, says: "up or down", of: ({ direction }) => direction },
    {
      name: "answer",
      kind: "text",
      unit: null,
      says: "real-change, data-error, temporary-cause or no-cause-found (a false alarm)",
      of: ({ kind }) => kind,
    },
    {
      name: "from",
      kind: "day",
      unit: null,
      says: "first day of the new level, or of the passing cause",
      of: ({ from }) => from,
    },
    { name: "to", kind: "day", unit: null, says: "last day of the passing cause", of: ({ to }) => to },
    {
      name: "days",
      kind: "text",
      unit: null,
      says: "days whose records are wrong, with spaces between",
      of: ({ days }) => (days.length === 0 ? null : days.join(" ")),
    },
    { name: "person", kind: "text", unit: null, says: "number of who answered", of: ({ person }) => person },
    {
      name: "reason_commitment",
      kind: "text",
      unit: null,
      says: "what stands for the sealed reason",
      of: ({ reasonSealed }) => reasonSealed,
    },
    {
      name: "ledger_index",
      kind: "whole",
      unit: null,
      says: "record of the answer",
      of: ({ ledgerIndex }) => ledgerIndex,
    },
  ],
};
