import { WHYS, type Why } from "#server/terms/history";

/** More ids than an address carries well; "all" stands for every one. */
const MOST = 45;

/** What a form says of loads that are not in a log any more: which should not count, and why it differs. */
export interface Resent {
  /** ids of batches, or "all" */
  readonly gone: readonly string[];
  readonly why: Why | null;
}

/** Fields "gone:" with an id or "all", "why" and "whyWords". */
export function resentOf(fields: Readonly<Record<string, string>>): Resent {
  const { why = "", whyWords = "" } = fields;
  const gone = Object.keys(fields).flatMap((name) => (name.startsWith("gone:") ? [name.slice("gone:".length)] : []));
  const words = whyWords.trim().slice(0, 300);
  const reason = WHYS.find((one) => one === why) ?? (words === "" ? null : ("other" as const));
  return { gone, why: reason === null ? null : { reason, words } };
}

/** The same for an address, so that looking again forgets nothing. */
export function packResent({ gone, why }: Resent): Record<string, string> {
  return {
    ...(gone.length === 0 ? {} : { gone: gone.length > MOST ? "all" : gone.join(",") }),
    ...(why === null ? {} : { why: why.reason, whyWords: why.words }),
  };
}
