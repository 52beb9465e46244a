import { z } from "zod";
import { WHYS, type Why } from "#server/terms/history";

const detail = z.object({
  reason: z.string().optional(),
  why: z.object({ reason: z.enum(WHYS), words: z.string() }).optional(),
  picture: z.string().optional(),
  typed: z.array(z.string()).optional(),
});

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
