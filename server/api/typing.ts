import { z } from "zod";
import type { Tx } from "#db/store";
import { slipCode } from "#server/jobs/arrive";
import { typingOf } from "#server/jobs/typed";
import { TYPED_FUELS, TYPED_MASS_UNITS } from "#server/jobs/typedSheet";

export { TYPED_COLUMNS, TYPED_FUELS, TYPED_MASS_UNITS, type TypedColumn } from "#server/jobs/typedSheet";

const cell = z.string().max(300).exactOptional();

/** What was typed from a picture, as it comes from outside. */
export const typedSheet = z.object({
  massUnit: z.enum(TYPED_MASS_UNITS),
  fuel: z.enum(TYPED_FUELS),
  lines: z
    .array(
      z.object({
        line: z.int().min(1).max(999),
        cells: z.strictObject({
          day: cell,
          number: cell,
          pan: cell,
          fresh: cell,
          dried: cell,
          minutes: cell,
          fuel: cell,
          remarks: cell,
        }),
      }),
    )
    .max(200),
});

/** Whether a picture waits to be typed, as the last thing that became of it says; null for what is no picture. */
export function waiting(detail: unknown): "waiting" | "typed" | null {
  const said = z.object({ picture: z.string(), typed: z.array(z.string()).optional() }).safeParse(detail).data;
  if (said === undefined) return null;
  return said.typed === undefined ? "waiting" : "typed";
}

/** What a file has to do with pictures, each other file with the code that it is called by. */
export async function typingHere(tx: Tx, file: string) {
  const { picture, typed, typedFrom } = await typingOf(tx, file);
  const named = (id: string) => ({ file: id, code: slipCode(id) });
  return {
    picture,
    typed: typed.map(named),
    typedFrom: typedFrom === null ? null : { ...named(typedFrom.picture), lines: typedFrom.lines },
  };
}
