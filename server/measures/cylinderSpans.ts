import { sumOf } from "#server/statistics/sum";
import { plusDays } from "#server/terms/days";
import { PRACTICE } from "#server/terms/factors";
import { type Fact, inForce } from "#server/terms/facts";
import type { Fuel, FuelSpan } from "#server/terms/fuel";
import { cylinderCount } from "./cylinderCount";
import { grossSpans } from "./grossSpans";

/** One dated word about a cylinder: so many put on that day, or its gross weight before and after. */
export interface CylinderEvent {
  readonly site: number;
  readonly day: string;
  readonly fuel: Fuel;
  readonly kind: "change" | "gross";
  /** cylinders put on; of a change */
  readonly count: number;
  /** gross weight in the morning and in the evening, where weighed */
  readonly beforeKg: number | null;
  readonly afterKg: number | null;
}

/**
 * Spans of fuel from a site's cylinder book.
 *
 * A cylinder's days run from the day after it was put on to the day it came off; the first one's from the day it was put
 * on. It gave its declared net weight, less at most what usually goes back unburnt. The one still on is pending, and its
 * `to` is its first day. A note of several changes since the last one is a count, with the bounds of a count. Without a
 * declared net weight a span has no amount. Weighed cylinders: see `grossSpans`.
 *
 * cylinderSpans([put on 1 June, put on 9 June], 13 kg net) // 1–9 June 13 kg; from 10 June pending
 */
export function cylinderSpans(events: readonly CylinderEvent[], facts: readonly Fact[]): FuelSpan[] {
  const books = new Map<string, CylinderEvent[]>();
  for (const event of events) {
    const key = `${event.site} ${event.fuel}`;
    books.set(key, [...(books.get(key) ?? []), event]);
  }
  return [...books.values()].flatMap((book) => {
    const own = facts.filter((fact) => fact.site === book[0]!.site);
    return [...changeSpans(book, own), ...grossSpans(book, own)];
  });
}

function changeSpans(book: readonly CylinderEvent[], facts: readonly Fact[]): FuelSpan[] {
  const changes = byDay(book.filter((event) => event.kind === "change" && event.count > 0));
  return changes.map(({ day, site, fuel }, i) => {
    const from = i === 0 ? day : plusDays(day, 1);
    const shared = inForce(facts, "kitchen-shares", day, fuel)?.shared ?? false;
    const span = { site, fuel, unit: "kg", from, shared } as const;
    const off = changes[i + 1];
    if (off === undefined) return { ...span, to: from, how: "pending", low: null, best: null, high: null };
    const netKg = inForce(facts, "cylinder", day, fuel)?.netKg ?? null;
    const how = off.count === 1 ? "cylinder-changed" : "cylinder-count";
    return { ...span, to: off.day, how, ...amountOf(off.count, netKg) };
  });
}

function amountOf(count: number, netKg: number | null): Pick<FuelSpan, "low" | "best" | "high"> {
  if (netKg === null) return { low: null, best: null, high: null };
  if (count === 1) return { low: Math.max(0, netKg - PRACTICE.cylinderHeelKg.value), best: netKg, high: netKg };
  const { low, best, high } = cylinderCount(count, netKg);
  return { low, best, high };
}

/** Changes in the order of days; two notes of one day are one change of so many. */
function byDay(changes: readonly CylinderEvent[]): CylinderEvent[] {
  const days = [...new Set(changes.map((event) => event.day))].sort();
  return days.map((day) => {
    const same = changes.filter((event) => event.day === day);
    return { ...same[0]!, count: sumOf(same, (event) => event.count) };
  });
}
