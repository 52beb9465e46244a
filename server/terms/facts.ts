import { z } from "zod";
import { FUELS } from "./fuel";

const share = z.number().gt(0).lt(1);
const method = z.enum(["sand-pan", "hot-air-cabinet", "microwave", "sun", "other"]);

/**
 * What a programme declares about a site, each with the day from which (and until which) it holds.
 *
 * A fact is never changed: a later declaration for the same days, kind and key stands in front of it.
 */
export const FACTS = {
  name: z.object({ name: z.string().min(1).max(80) }).strict(),
  "time-zone": z.object({ zone: z.string() }).strict(),
  language: z.object({ language: z.enum(["en", "fr", "es", "pt", "sw", "id"]) }).strict(),
  /** the site is open from the fact's first day to its last */
  open: z.object({}).strict(),
  /** closed days: they are not owed, if declared by the due day of their month or accepted by an officer */
  closed: z.object({ reason: z.string().max(200), accepted: z.boolean().default(false) }).strict(),
  /** a month in which nothing was produced, filed by the site */
  "nothing-produced": z.object({}).strict(),
  /** what is owed on an open day. `of` says whether the site owes a line a load or a line a day */
  schedule: z
    .object({
      weekdays: z.array(z.number().int().min(1).max(7)).min(1),
      perDay: z.number().int().min(1).max(500),
      of: z.enum(["batches", "loads", "days"]),
    })
    .strict(),
  /** day of the following month by which a month's log is due */
  due: z.object({ dayOfMonth: z.number().int().min(1).max(28) }).strict(),
  method: z.object({ method }).strict(),
  pans: z.object({ pans: z.number().int().min(1).max(200) }).strict(),
  hours: z.object({ perDay: z.number().gt(0).max(24) }).strict(),
  /** how far a batch number reaches: the same number never comes twice in the site's life, or in one day */
  numbering: z.object({ unique: z.enum(["site", "day"]), unbroken: z.boolean().default(false) }).strict(),
  "usual-load": z.object({ freshKg: z.number().gt(0), highestFreshKg: z.number().gt(0) }).strict(),
  "minutes-between-loads": z.object({ minutes: z.number().min(0) }).strict(),
  "sand-limit": z.object({ loads: z.number().int().min(1) }).strict(),
  /** key: the container's name */
  container: z.object({ kg: z.number().gt(0) }).strict(),
  /** key: the fuel */
  cylinder: z.object({ netKg: z.number().gt(0) }).strict(),
  /** key: fresh, dried or fuel */
  "scale-step": z.object({ kg: z.number().gt(0) }).strict(),
  "usual-measures": z
    .object({
      mass: z.enum(["kg", "g", "lb"]),
      time: z.enum(["min", "h"]).default("min"),
      /** of fuel that is weighed; kg where larvae are weighed in kg and nothing else is said */
      fuel: z.enum(["kg", "g", "lb"]).optional(),
      decimalMark: z.enum([".", ","]).optional(),
      dayOrder: z.enum(["dmy", "mdy", "ymd"]).optional(),
    })
    .strict(),
  tally: z.object({ writes: z.enum(["loads", "days"]) }).strict(),
  "main-fuel": z.object({ fuel: z.enum(FUELS) }).strict(),
  /** what the larvae were reared on, in the site's words */
  feed: z.object({ feed: z.string().min(1).max(80) }).strict(),
  /** which sheet the site writes its log on, in its own words */
  "log-layout": z.object({ layout: z.string().min(1).max(80) }).strict(),
  /** dry matter of the fresh larvae */
  "dry-matter": z.object({ share, sd: z.number().min(0).max(0.2), measured: z.boolean() }).strict(),
  "fresh-weighed": z.object({ when: z.enum(["before-washing", "after-washing", "drained"]) }).strict(),
  "dried-weighed": z
    .object({ when: z.enum(["hot", "cooled", "next-morning"]), sieved: z.enum(["before-sieving", "after-sieving"]) })
    .strict(),
  /** key: the fuel. The kitchen cooks on it too */
  "kitchen-shares": z.object({ shared: z.boolean() }).strict(),
  /** key: the measure */
  target: z.object({ value: z.number(), source: z.string().max(200) }).strict(),
  /** key: the fuel. Puts a national or measured value in the place of the published one */
  "fuel-factor": z
    .object({
      mjPerUnit: z.number().gt(0),
      co2KgPerUnit: z.number().min(0).optional(),
      source: z.string().min(1).max(200),
    })
    .strict(),
  /** what missing batches could have been at the most */
  plausible: z.object({ highestFreshKg: z.number().gt(0), lowestYield: share, highestYield: share }).strict(),
  /** of the programme: how many false alarms a month it accepts over all its sites, and how it means the number */
  "false-alarms": z
    .object({
      perMonth: z.number().gt(0).max(50),
      reading: z.enum(["on-average", "at-most-one-in-95-percent"]).default("on-average"),
    })
    .strict(),
  /** a visit, a repair, a season: drawn through every chart. key: a word for it */
  event: z
    .object({ kind: z.enum(["visit", "repair", "season", "sand", "staff", "other"]), text: z.string().max(200) })
    .strict(),
} as const;

export type FactKind = keyof typeof FACTS;
export type FactValue<K extends FactKind> = z.infer<(typeof FACTS)[K]>;
export const FACT_KINDS = Object.keys(FACTS) as FactKind[];

/** One declaration. `to` null: until further notice. `value` null: the declaration for these days is taken back. */
export interface Fact<K extends FactKind = FactKind> {
  readonly site: number;
  readonly kind: K;
  /** tells facts of one kind apart: the container's name, the fuel, the first closed day; "" where there is only one */
  readonly key: string;
  readonly from: string;
  readonly to: string | null;
  readonly value: FactValue<K> | null;
  readonly ledgerIndex: number;
  /** day on which it was declared, by the ledger's clock */
  readonly declaredOn: string;
}

/** The value in force on a day: of all that cover the day, the one declared last. */
export function inForce<K extends FactKind>(
  facts: readonly Fact[],
  kind: K,
  on: string,
  key = "",
): FactValue<K> | null {
  let best: Fact | null = null;
  for (const fact of facts) {
    if (fact.kind !== kind || fact.key !== key || fact.from > on || (fact.to !== null && fact.to < on)) continue;
    if (best === null || fact.ledgerIndex >= best.ledgerIndex) best = fact;
  }
  return (best?.value ?? null) as FactValue<K> | null;
}

/** Checks what a person declares; throws a ZodError that names the field. */
export function factValue<K extends FactKind>(kind: K, value: unknown): FactValue<K> {
  return FACTS[kind].parse(value) as FactValue<K>;
}
