import { z } from "zod";
import type { SendOrder } from "#server/jobs/send";
import { WHYS, type Why } from "#server/terms/history";
import { wrong } from "./base";

/** Batches that a log lacks and that are to be withdrawn, and why it says something else than an earlier one. */
export const resent = {
  withdraw: z.array(z.guid()).max(2000).optional(),
  why: z.object({ reason: z.enum(WHYS), words: z.string().max(300).default("") }).optional(),
};

export type Decided = Pick<SendOrder, "withdraw" | "why">;

/** What persons decided about what is here already. Throws where batches are to be withdrawn and nobody says why. */
export function decidedIn(said: { withdraw?: string[] | undefined; why?: Why | undefined }): Decided {
  const { withdraw = [], why } = said;
  if (withdraw.length > 0 && why === undefined)
    throw wrong("Say why the loads that are not in this log should not count any more.");
  return { withdraw, ...(why === undefined ? {} : { why }) };
}
