import { knownLayout } from "#server/intake/settle/knownLayout";
import { layoutChange } from "#server/intake/settle/layout";
import type { LikeBefore } from "#server/terms/look";
import type { Answers, Bounds, Reading, Remembered, Unreadable } from "#server/terms/row";
import { layoutsOf } from "./layouts";
import { readBytes } from "./readBytes";
import { type LogToRead, readForSite } from "./readForSite";
import type { Corridor } from "./record";

/** A log as somebody looks at it before it counts. */
export interface Understood extends Reading {
  /** everything that is answered, what is remembered among it */
  readonly answers: Answers | null;
  readonly remembered: Remembered | null;
  /** the earlier log of the site that has the same columns, and how they differ; null where none has */
  readonly like: LikeBefore | null;
  /** how many earlier logs of the site count, at most a few are looked at */
  readonly earlier: number;
}

/** Reads a log with everything that helps a person to settle it. Nothing is stored. */
export async function lookAt(corridor: Corridor, bounds: Bounds, order: LogToRead): Promise<Understood | Unreadable> {
  const { reading, hints } = await readForSite(corridor, bounds, order);
  if ("refused" in reading) return reading;
  const isClear = reading.questions.length === 0;
  const looked = isClear ? reading : await readBytes({ bytes: order.bytes, hints, bounds, look: "all" });
  if ("refused" in looked) return looked;
  const known = order.site === null ? [] : await layoutsOf(corridor, bounds, order.site, order.file ?? null);
  const found = layoutChange(knownLayout("", looked, hints, []).tables, known);
  return {
    ...looked,
    answers: hints.answers ?? null,
    remembered: hints.remembered ?? null,
    like: found === null ? null : { file: found.layout.file, month: found.layout.month, change: found.change },
    earlier: known.length,
  };
}
