import { z } from "zod";
import type { FileNow } from "#db/queries/files";
import type { LogToRead } from "#server/jobs/readForSite";
import type { SendOrder } from "#server/jobs/send";
import { answersBeyond, type Said } from "#server/terms/answers";
import type { Why } from "#server/terms/history";
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

const WHY_CORRECTED: Readonly<Record<string, Why["reason"]>> = {
  "grams-for-kilograms": "unit",
  "pounds-for-kilograms": "unit",
  "container-in-both": "scale",
  "sand-in-dried": "scale",
  "in-out-exchanged": "misread",
  "year-mistyped": "misread",
  "weighed-together": "misread",
  "rows-copied": "twice",
};

/** Why a log says something else than when it was last counted, where somebody confirmed a fault of it since. */
export function whyCorrected(before: Hints | null, now: Hints): Pick<SendOrder, "why"> {
  const had = before?.answers?.faults ?? {};
  const confirmed = Object.entries(now.answers?.faults ?? {}).find(
    ([key, said]) => said === "put-right" && had[key] !== "put-right",
  );
  const reason = WHY_CORRECTED[confirmed?.[0].split(" ")[0] ?? ""];
  return reason === undefined ? {} : { why: { reason, words: "" } };
}
