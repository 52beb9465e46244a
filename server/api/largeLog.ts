import { hintsFor } from "#server/jobs/readForSite";
import type { Corridor } from "#server/jobs/record";
import { type LargeOrder, sendParts } from "#server/jobs/sendParts";
import type { Bounds, Unreadable } from "#server/terms/row";
import type { Slip } from "#server/terms/slip";
import { inWords } from "./watched";

/** A log on this machine's disk, taken in piece by piece. */
export interface LargeLog extends Pick<LargeOrder, "source"> {
  readonly name: string;
  readonly period?: string | undefined;
  readonly cameBy: "site" | "message";
  readonly claimedAt?: string | undefined;
  readonly onPart?: LargeOrder["onPart"] | undefined;
}

/** Keeps, reads and counts a large log part by part; of the programme where no site is named. */
export async function sendLarge(
  { corridor, bounds }: { corridor: Corridor; bounds: Bounds },
  { source, period, onPart, name, cameBy, claimedAt }: LargeLog,
  site: number | null,
): Promise<{ slip: Slip } | { unreadable: Unreadable }> {
  const said = period === undefined ? {} : { period };
  const hints = site === null ? said : await hintsFor(corridor, site, period ?? null);
  const sent = { name, site, cameBy, claimedAt: claimedAt ?? null };
  const order = { source, sent, hints, bounds, ...(onPart === undefined ? {} : { onPart }) };
  const done = await sendParts(corridor, order).catch((trouble) => inWords(trouble));
  return "refused" in done ? { unreadable: done } : { slip: done };
}
