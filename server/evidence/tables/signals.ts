import type { TableOf } from "../table";

/** A signal as it stood at the end of a month. */
export interface SignalItem {
  /** null: what the sites of a method did together */
  readonly site: string | null;
  readonly method: string;
  readonly measure: string;
  readonly raisedOn: string;
  readonly direction: string;
  readonly month: string;
  readonly state: string;
  readonly since: string | null;
  readonly sinceFrom: string;
  readonly sinceTo: string;
  readonly change: number;
  readonly low: number;
  readonly high: number;
  readonly before: number;
  readonly after: number;
  readonly per30Days: number;
  readonly confirms: string | null;
  readonly together: boolean;
}

export const signalsTable: TableOf<SignalItem> = {
  name: "signals",
  says: "Signals raised in the months asked for, as they stood at the end of each month in which something about them changed.",
  columns: [
    {
      name: "site",
      kind: "text",
      unit: null,
      says: "code of the site; empty: what the sites of a method did together",
      of: ({ site }) => site,
    },
    { name: "method", kind: "text", unit: null, says: "drying method", of: ({ method }) => method },
    { name: "measure", kind: "text", unit: null, says: "what changed", of: ({ measure }) => measure },
    { name: "raised_on", kind: "day", unit: null, says: "day that raised it", of: ({ raisedOn }) => raisedOn },
    { name: "direction", kind: "text", unit: null, says: "up or down", of: ({ direction }) => direction },
    { name: "month", kind: "text", unit: null, says: "month at whose end it stood so", of: ({ month }) => month },
    {
      name: "state",
      kind: "text",
      unit: null,
      says: "stands; back: the level went back; turned: a later one goes the other way; ended: by an answer or a declared change; unsupported: later logs no longer tell of it; one that stands and is not answered stands for three months",
      of: ({ state }) => state,
    },
    {
      name: "since",
      kind: "day",
      unit: null,
      says: "estimated first day; empty: not determined",
      of: ({ since }) => since,
    },
    {
      name: "since_from",
      kind: "day",
      unit: null,
      says: "earliest such day, with 95 %",
      of: ({ sinceFrom }) => sinceFrom,
    },
    { name: "since_to", kind: "day", unit: null, says: "latest such day, with 95 %", of: ({ sinceTo }) => sinceTo },
    {
      name: "change",
      kind: "number",
      unit: "share",
      says: "difference, as a share of the level before",
      of: ({ change }) => change,
    },
    { name: "change_low", kind: "number", unit: "share", says: "its interval of 95 %, from", of: ({ low }) => low },
    { name: "change_high", kind: "number", unit: "share", says: "its interval of 95 %, to", of: ({ high }) => high },
    { name: "before", kind: "number", unit: "unit of the measure", says: "level before", of: ({ before }) => before },
    { name: "after", kind: "number", unit: "unit of the measure", says: "level since", of: ({ after }) => after },
    {
      name: "per_30_days",
      kind: "number",
      unit: "kg, MJ or batches",
      says: "what the change comes to over 30 days as busy as those since it",
      of: ({ per30Days }) => per30Days,
    },
    {
      name: "confirms",
      kind: "day",
      unit: null,
      says: "day of the earlier signal that this one says again",
      of: ({ confirms }) => confirms,
    },
    {
      name: "together",
      kind: "yes-no",
      unit: null,
      says: "part of what the sites of its method did together",
      of: ({ together }) => together,
    },
  ],
};
