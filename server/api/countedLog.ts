import { z } from "zod";
import type { FileNow } from "#db/queries/files";
import type { LogToRead } from "#server/jobs/readForSite";
import { answersBeyond, type Said } from "#server/terms/answers";
import type { Answers, Hints } from "#server/terms/row";

/** How a file is to be read: where it was counted before, with what was remembered then and nothing else. */
export function orderOf(
  found: FileNow,
  bytes: Uint8Array,
  input: { period?: string | undefined; answers?: Said | undefined },
): LogToRead {
  const { file } = found;
  const order = { bytes, file: file.id, site: file.site, period: input.period ?? null, answers: input.answers ?? null };
  const hints = hintsThen(found);
  return hints === null ? order : { ...order, remembered: hints.remembered ?? null };
}

/** How a file was read when it was last counted; null where it was not. */
export function hintsThen({ state, detail }: FileNow): Hints | null {
  return state === "counted" ? (z.object({ hints: z.custom<Hints>() }).safeParse(detail).data?.hints ?? null) : null;
}

/** The answers that persons gave to this very log. */
export function ownAnswers(hints: Hints | null): Answers | null {
  if (hints?.answers === undefined) return null;
  return hints.remembered === undefined ? hints.answers : answersBeyond(hints.answers, hints.remembered.answers);
}
