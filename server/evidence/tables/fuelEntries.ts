import type { Fuel, FuelDeclared, FuelWritten } from "#server/terms/fuel";
import type { TableOf } from "../table";

/** What was written or declared about fuel: what the spans are worked out from. */
export interface EntryItem {
  readonly site: string;
  readonly day: string;
  readonly fuel: Fuel;
  readonly said: FuelWritten["said"] | FuelDeclared;
  readonly batch: string | null;
  /** sending slip of its log; null where it was declared */
  readonly log: string | null;
  readonly id: string;
}

export const fuelEntriesTable: TableOf<EntryItem> = {
  name: "fuel-entries",
  says: "What logs and declarations say of fuel on the days that the spans reach over. The cells of a batch's row are in the table cells.",
  columns: [
    { name: "site", kind: "text", unit: null, says: "code of the site", of: ({ site }) => site },
    {
      name: "day",
      kind: "day",
      unit: null,
      says: "day, or first day of a span that was declared",
      of: ({ day }) => day,
    },
    {
      name: "to",
      kind: "day",
      unit: null,
      says: "last day of a span that was declared",
      of: ({ said }) => (said.kind === "span" ? said.to : null),
    },
    { name: "fuel", kind: "text", unit: null, says: "which fuel", of: ({ fuel }) => fuel },
    {
      name: "says",
      kind: "text",
      unit: null,
      says: "amount, cylinder-change, gross (a cylinder weighed before and after) or span (declared)",
      of: ({ said }) => said.kind,
    },
    { name: "amount", kind: "number", unit: "see unit", says: "amount burned; of a span most likely", of: amountOf },
    {
      name: "unit",
      kind: "text",
      unit: null,
      says: "unit of amount, before and after",
      of: ({ said }) => ("unit" in said ? said.unit : said.kind === "gross" ? "kg" : null),
    },
    {
      name: "cylinders",
      kind: "whole",
      unit: "cylinders",
      says: "cylinders put on",
      of: ({ said }) => (said.kind === "cylinder-change" ? said.count : null),
    },
    {
      name: "before",
      kind: "number",
      unit: "see unit",
      says: "gross weight before",
      of: ({ said }) => (said.kind === "gross" ? (said.before?.exact ?? null) : null),
    },
    {
      name: "after",
      kind: "number",
      unit: "see unit",
      says: "gross weight after",
      of: ({ said }) => (said.kind === "gross" ? (said.after?.exact ?? null) : null),
    },
    {
      name: "how",
      kind: "text",
      unit: null,
      says: "how a declared span is known",
      of: ({ said }) => (said.kind === "span" ? said.how : null),
    },
    { name: "log", kind: "text", unit: null, says: "sending slip of the log; empty: declared", of: ({ log }) => log },
    { name: "batch", kind: "text", unit: null, says: "id of the batch whose row said it", of: ({ batch }) => batch },
    { name: "entry", kind: "text", unit: null, says: "its permanent id", of: ({ id }) => id },
  ],
};

function amountOf({ said }: EntryItem): string | number | null {
  if (said.kind === "amount") return said.amount.exact;
  return said.kind === "span" ? said.best : null;
}
