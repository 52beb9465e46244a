import type { Method } from "#server/terms/batch";
import type { Role } from "#server/terms/person";

export const METHOD_WORDS: Record<Method, string> = {
  "sand-pan": "pans of hot sand",
  "hot-air-cabinet": "hot-air cabinet",
  microwave: "microwave",
  sun: "sun",
  other: "another way",
};

export const ROLE_WORDS: Record<Role, string> = {
  operator: "operator",
  officer: "programme officer",
  lead: "site lead",
  auditor: "auditor",
};
