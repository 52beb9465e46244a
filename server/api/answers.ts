import { z } from "zod";
import type { Said } from "#server/terms/answers";
import { isDay } from "#server/terms/days";
import { MEANINGS } from "#server/terms/row";
import { day } from "./base";

const places = z.array(z.string().max(300));

/** What a person says to a log, as it comes from outside. */
export const answers: z.ZodType<Said> = z.strictObject({
  dayOrder: z.enum(["dmy", "mdy", "ymd"]).exactOptional(),
  decimalMark: z.enum([".", ","]).exactOptional(),
  days: z.record(z.string(), day.refine(isDay, "must be a day of the calendar")).exactOptional(),
  clock: z.enum(["midnight", "dawn"]).exactOptional(),
  years: z.enum(["common", "buddhist"]).exactOptional(),
  together: z.array(z.array(z.string())).exactOptional(),
  meanings: z.record(z.string(), z.enum([...MEANINGS, "ignore"])).exactOptional(),
  units: z.record(z.string(), z.string()).exactOptional(),
  cells: z.record(z.string(), z.string().max(200)).exactOptional(),
  setAside: places.exactOptional(),
  asWritten: places.exactOptional(),
  are: z.record(z.string(), z.string().max(1000)).exactOptional(),
  faults: z.record(z.string(), z.enum(["yes", "no", "put-right"])).exactOptional(),
  leftOut: places.exactOptional(),
  headings: z.record(z.string(), z.int().min(0)).exactOptional(),
  headingsFrom: z.record(z.string(), z.int().min(1)).exactOptional(),
  alone: z.boolean().exactOptional(),
  alike: z.record(z.string(), z.string().max(20)).exactOptional(),
});
