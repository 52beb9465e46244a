import type { TableOf } from "../table";

export interface PublicationItem {
  readonly site: string;
  readonly month: string;
  readonly edition: string;
  readonly knownSize: number;
  readonly digest: string;
  readonly publishedAt: string | null;
  readonly ledgerIndex: number;
}

export const publicationsTable: TableOf<PublicationItem> = {
  name: "publications",
  says: "What was published of the months asked for. What was published stands, whatever is known later.",
  columns: [
    { name: "site", kind: "text", unit: null, says: "code of the site", of: ({ site }) => site },
    { name: "month", kind: "text", unit: null, says: "month", of: ({ month }) => month },
    { name: "edition", kind: "text", unit: null, says: "name of the calculation", of: ({ edition }) => edition },
    {
      name: "known_size",
      kind: "whole",
      unit: "records",
      says: "size of the ledger that it was worked out from",
      of: ({ knownSize }) => knownSize,
    },
    {
      name: "figures_sha256",
      kind: "text",
      unit: null,
      says: "SHA-256 of the figures as canonical JSON",
      of: ({ digest }) => digest,
    },
    { name: "published_at", kind: "time", unit: "UTC", says: "when", of: ({ publishedAt }) => publishedAt },
    {
      name: "ledger_index",
      kind: "whole",
      unit: null,
      says: "record of the publication",
      of: ({ ledgerIndex }) => ledgerIndex,
    },
  ],
};
