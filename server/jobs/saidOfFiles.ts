import { z } from "zod";
import { WHYS, type Why } from "#server/terms/history";

const detail = z.object({
  reason: z.string().optional(),
  why: z.object({ reason: z.enum(WHYS), words: z.string() }).optional(),
  picture: z.string().optional(),
  typed: z.array(z.string()).optional(),
  soFar: z.object({ loads: z.int(), of: z.int() }).optional(),
});

/** Of how many loads a log that is being taken back part by part is taken back. */
export interface SoFar {
  readonly loads: number;
  readonly of: number;
}

/** How far a log is taken back; null where it is wholly, or not at all. */
export function soFarOf(said: unknown): SoFar | null {
  return detail.safeParse(said).data?.soFar ?? null;
}

/** Why a log was taken back, in the words of whoever did. */
export function reasonOf(said: unknown): string | null {
  return detail.safeParse(said).data?.reason ?? null;
}

/** Why a log says something else than an earlier one; null where nobody said. */
export function whyOf(said: unknown): Why | null {
  return detail.safeParse(said).data?.why ?? null;
}

/** Whether a picture waits to be typed; null for what is no picture. */
export function pictureOf(said: unknown): "waiting" | "typed" | null {
  const found = detail.safeParse(said).data;
  if (found?.picture === undefined) return null;
  return found.typed === undefined ? "waiting" : "typed";
}
