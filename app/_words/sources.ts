import type { HowSeen, Source } from "#server/terms/sources";

/** How a number from elsewhere reached us, told beside it. */
export const SEEN_WORDS: Record<HowSeen, string> = {
  seen: "seen in the source",
  "seen-in-copies": "seen in copies that agree, not in the source itself",
  "from-memory": "from memory: look it up before you cite it",
  definition: "a definition",
  "common-practice": "common practice; no publication is claimed",
};

/** A source in one line. */
export function sourceInWords({ title, body, year, at }: Source): string {
  return `${title}. ${body}${year === null ? "" : `, ${year}`}${at === null ? "" : `. ${at}`}.`;
}
