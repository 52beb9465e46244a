import type { Person, Role } from "#server/terms/person";

/** What can be done, each with the roles that may and how far: at every site, or a site lead's own only. */
const RULES = {
  "see-sites": { operator: "all", officer: "all", lead: "own", auditor: "all" },
  "read-figures": { operator: "all", officer: "all", lead: "own", auditor: "all" },
  "read-files": { operator: "all", officer: "all", lead: "own", auditor: "all" },
  "send-log": { operator: "all", officer: "all", lead: "own", auditor: "no" },
  "send-programme-log": { operator: "all", officer: "all", lead: "no", auditor: "no" },
  "withdraw-log": { operator: "all", officer: "all", lead: "own", auditor: "no" },
  "erase-names": { operator: "all", officer: "all", lead: "no", auditor: "no" },
  "open-site": { operator: "all", officer: "all", lead: "no", auditor: "no" },
  "declare-fact": { operator: "all", officer: "all", lead: "no", auditor: "no" },
  "declare-closing": { operator: "all", officer: "all", lead: "own", auditor: "no" },
  "decide-people": { operator: "all", officer: "all", lead: "no", auditor: "no" },
  "see-accepted": { operator: "all", officer: "all", lead: "no", auditor: "all" },
  watch: { operator: "all", officer: "all", lead: "no", auditor: "no" },
  "answer-signal": { operator: "all", officer: "all", lead: "no", auditor: "no" },
  publish: { operator: "all", officer: "all", lead: "no", auditor: "no" },
  verify: { operator: "all", officer: "all", lead: "no", auditor: "all" },
} as const satisfies Record<string, Record<Role, "all" | "own" | "no">>;

export type Action = keyof typeof RULES;

/**
 * Whether a person may do something, at a site or (site null) over the programme.
 *
 * "unseen" means that the person is not to learn that the site exists: it is answered like one that does not.
 */
export function may(person: Person, action: Action, site: number | null): "yes" | "no" | "unseen" {
  const reach = RULES[action][person.role];
  if (reach === "all") return "yes";
  if (person.site !== null && site !== null && person.site !== site) return "unseen";
  return reach === "own" && site !== null ? "yes" : "no";
}

/** Whether a person may do something at some site or other. */
export function mayAnywhere(person: Person, action: Action): boolean {
  return RULES[action][person.role] !== "no";
}
