/** Who may act. The operator is whoever holds the machine; commands are theirs unless `--as` says otherwise. */
export const ROLES = ["operator", "officer", "lead", "auditor"] as const;
export type Role = (typeof ROLES)[number];

export interface Person {
  readonly id: string;
  readonly role: Role;
  /** the one site of a site lead; null for the others */
  readonly site: number | null;
}

/** The operator has one id everywhere, so that a ledger reads the same on any machine. */
export const OPERATOR: Person = { id: "00000000-0000-4000-8000-000000000001", role: "operator", site: null };
