import type { About } from "#server/measures/about";
import type { Batch, Quantity } from "#server/terms/batch";
import type { Fact, FactKind, FactValue } from "#server/terms/facts";
import type { AsKnownOn, Figure } from "#server/terms/figure";
import type { FuelSpan } from "#server/terms/fuel";

/** Invented rows for the tests of this room: a batch, a fact, a span of fuel, with what matters said and the rest plain. */
export const SITE = 3;
export const NOW: AsKnownOn = { ledgerSize: 12, time: "2031-07-10T08:00:00.000Z" };

export const ABOUT: About = {
  asKnownOn: NOW,
  of: "batches",
  owed: null,
  plausible: null,
  loadsEach: 1,
  nothing: null,
};

export function quantity(value: number | null): Quantity | null {
  return value === null ? null : { exact: String(value), value };
}

type Said = Partial<Omit<Batch, "fresh" | "dried" | "minutes">> & { readonly minutes?: number | null };

/** A load of `fresh` kg that gave `dried` kg; null where the log does not say. */
export function batch(day: string, fresh: number | null, dried: number | null, said: Said = {}): Batch {
  const { minutes = null, ...rest } = said;
  return {
    id: `${day} ${fresh} ${dried}`,
    site: SITE,
    day,
    method: "sand-pan",
    grain: "load",
    loads: 1,
    number: null,
    pan: null,
    startMinute: null,
    harvest: null,
    fresh: quantity(fresh),
    dried: quantity(dried),
    driedToCome: false,
    minutes: quantity(minutes),
    endMinute: null,
    rejects: null,
    sandKg: null,
    sandCycle: null,
    newSand: null,
    crushTest: null,
    crisp: null,
    colour: null,
    moistureReading: null,
    waterActivity: null,
    inTime: true,
    ...rest,
  };
}

type Dated = {
  readonly key?: string;
  readonly from?: string;
  readonly to?: string | null;
  readonly on?: string;
  readonly at?: number;
};

/** A fact of the invented site, from the start of 2031 unless said otherwise. */
export function fact<K extends FactKind>(kind: K, value: FactValue<K> | null, dated: Dated = {}): Fact {
  const { key = "", from = "2031-01-01", to = null, on = "2031-01-01", at = 1 } = dated;
  return { site: SITE, kind, key, from, to, value, ledgerIndex: at, declaredOn: on };
}

/** A span of weighed gas; say what differs. */
export function span(from: string, to: string, best: number | null, said: Partial<FuelSpan> = {}): FuelSpan {
  const plain = { fuel: "lpg", unit: "kg", how: "weighed", low: best, high: best, shared: false } as const;
  return { site: SITE, from, to, best, ...plain, ...said };
}

/** The value of a figure that must have one. */
export function valued(figure: Figure): number {
  if (!figure.known) throw new Error(`unknown: ${figure.why}`);
  return figure.value;
}
