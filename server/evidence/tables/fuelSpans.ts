import type { FuelSpan } from "#server/terms/fuel";
import type { TableOf } from "../table";

export interface SpanItem extends Omit<FuelSpan, "site"> {
  readonly site: string;
  readonly ledgerIndex: number;
}

export const fuelSpansTable: TableOf<SpanItem> = {
  name: "fuel-spans",
  says: "Fuel burned over days, of every span that touches the months asked for or reaches back from one that ends in them.",
  columns: [
    { name: "site", kind: "text", unit: null, says: "code of the site", of: ({ site }) => site },
    { name: "fuel", kind: "text", unit: null, says: "which fuel", of: ({ fuel }) => fuel },
    { name: "from", kind: "day", unit: null, says: "burned from the morning of this day", of: ({ from }) => from },
    { name: "to", kind: "day", unit: null, says: "to the evening of this day", of: ({ to }) => to },
    {
      name: "how",
      kind: "text",
      unit: null,
      says: "how the amount is known; pending: begun and not ended",
      of: ({ how }) => how,
    },
    { name: "unit", kind: "text", unit: null, says: "unit of low, best and high", of: ({ unit }) => unit },
    { name: "low", kind: "number", unit: "see unit", says: "at the least", of: ({ low }) => low },
    { name: "best", kind: "number", unit: "see unit", says: "most likely", of: ({ best }) => best },
    { name: "high", kind: "number", unit: "see unit", says: "at the most", of: ({ high }) => high },
    {
      name: "shared",
      kind: "yes-no",
      unit: null,
      says: "the kitchen cooks on it too: an upper bound",
      of: ({ shared }) => shared,
    },
    {
      name: "ledger_index",
      kind: "whole",
      unit: null,
      says: "record that last changed it",
      of: ({ ledgerIndex }) => ledgerIndex,
    },
  ],
};
