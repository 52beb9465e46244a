import type { TableOf } from "../table";

/** A log as it came, and where its rows went. */
export interface OriginalItem {
  readonly file: string;
  readonly site: string | null;
  readonly log: string;
  readonly sha256: string | null;
  readonly bytes: number | null;
  readonly arrivedAt: string | null;
  readonly claimedAt: string | null;
  readonly cameBy: string | null;
  readonly state: string;
  readonly rows: number;
  readonly counted: number;
  readonly held: number;
  readonly setAside: number;
  /** rows that its sending slip names; null while it has none, or where the person may not see the whole log */
  readonly rowsOnSlip: number | null;
  readonly ledgerIndex: number | null;
}

export const originalsTable: TableOf<OriginalItem> = {
  name: "originals",
  says: "Every log that speaks of the months asked for, with the hash of its bytes and where its rows went. A log that names no day is given with the month in which it arrived and the one before.",
  columns: [
    {
      name: "site",
      kind: "text",
      unit: null,
      says: "code of the site; empty: a log of the programme",
      of: ({ site }) => site,
    },
    { name: "log", kind: "text", unit: null, says: "sending slip", of: ({ log }) => log },
    {
      name: "sha256",
      kind: "text",
      unit: null,
      says: "SHA-256 of the bytes as they came; empty where only some rows may be seen",
      of: ({ sha256 }) => sha256,
    },
    { name: "bytes", kind: "whole", unit: "bytes", says: "size", of: ({ bytes }) => bytes },
    { name: "arrived_at", kind: "time", unit: "UTC", says: "when it arrived", of: ({ arrivedAt }) => arrivedAt },
    {
      name: "claimed_at",
      kind: "time",
      unit: "UTC",
      says: "when it was sent, as the sender says",
      of: ({ claimedAt }) => claimedAt,
    },
    {
      name: "came_by",
      kind: "text",
      unit: null,
      says: "site, or message: somebody brought it",
      of: ({ cameBy }) => cameBy,
    },
    { name: "state", kind: "text", unit: null, says: "arrived, counted or withdrawn", of: ({ state }) => state },
    {
      name: "rows",
      kind: "whole",
      unit: "rows",
      says: "rows; of a log of the programme, those of the sites asked for",
      of: ({ rows }) => rows,
    },
    { name: "counted", kind: "whole", unit: "rows", says: "rows counted", of: ({ counted }) => counted },
    { name: "held", kind: "whole", unit: "rows", says: "rows held for an answer", of: ({ held }) => held },
    {
      name: "set_aside",
      kind: "whole",
      unit: "rows",
      says: "rows set aside: heading, total, empty or note",
      of: ({ setAside }) => setAside,
    },
    {
      name: "rows_on_slip",
      kind: "whole",
      unit: "rows",
      says: "rows that its sending slip names",
      of: ({ rowsOnSlip }) => rowsOnSlip,
    },
    {
      name: "ledger_index",
      kind: "whole",
      unit: null,
      says: "record of its arrival",
      of: ({ ledgerIndex }) => ledgerIndex,
    },
  ],
};
