import { type Fact, inForce } from "#server/terms/facts";
import type { Fuel, FuelDeclared, FuelSpan, FuelWritten } from "#server/terms/fuel";
import { amountSpans, type FuelAmount } from "./amountSpans";
import { type CylinderEvent, cylinderSpans } from "./cylinderSpans";

/** One thing written or declared about a site's fuel. */
export interface FuelSaidOn {
  readonly site: number;
  readonly day: string;
  readonly fuel: Fuel;
  readonly said: FuelWritten["said"] | FuelDeclared;
}

/**
 * Fuel spans of one site from everything written about its fuel, in an order of content.
 *
 * Amounts in rows become spans of one day, cylinders put on and weighed spans of their own; declared spans stand as
 * declared. Where a day has both a cylinder's weights and an amount in kg, they are one fact written twice: the weights
 * stand.
 *
 * fuelSpansFrom([0.4 kg and 0.3 kg of gas on 3 May]) // 3 May to 3 May, weighed, 0.7 kg
 */
export function fuelSpansFrom(entries: readonly FuelSaidOn[], facts: readonly Fact[]): FuelSpan[] {
  const amounts: FuelAmount[] = [];
  const declared: FuelSpan[] = [];
  const events: CylinderEvent[] = [];
  for (const { said, day, fuel, site } of entries) {
    if (said.kind === "amount") amounts.push({ site, day, fuel, amount: said.amount.value, unit: said.unit });
    else if (said.kind === "cylinder-change") {
      events.push({ site, day, fuel, kind: "change", count: said.count, beforeKg: null, afterKg: null });
    } else if (said.kind === "gross") {
      events.push({
        site,
        day,
        fuel,
        kind: "gross",
        count: 0,
        beforeKg: said.before?.value ?? null,
        afterKg: said.after?.value ?? null,
      });
    } else {
      const shared = inForce(facts, "kitchen-shares", day, fuel)?.shared ?? false;
      const { kind: _kind, ...span } = said;
      declared.push({ site, from: day, fuel, shared, ...span });
    }
  }
  return once([...declared.sort(inOrder), ...cylinderSpans(events, facts), ...amountSpans(amounts, facts)]).sort(
    inOrder,
  );
}

/** One span for the same days, fuel, way of knowing and unit: the first that has an amount, else the first. */
function once(spans: readonly FuelSpan[]): FuelSpan[] {
  const kept = new Map<string, FuelSpan>();
  for (const span of spans) {
    const before = kept.get(keyOf(span));
    if (before === undefined || (before.best === null && span.best !== null)) kept.set(keyOf(span), span);
  }
  return [...kept.values()];
}

/** By end, beginning, fuel, way of knowing and unit; one without an amount comes first. */
function inOrder(a: FuelSpan, b: FuelSpan): number {
  return (
    texts(a.to, b.to) ||
    texts(a.from, b.from) ||
    texts(a.fuel, b.fuel) ||
    texts(a.how, b.how) ||
    texts(a.unit, b.unit) ||
    (a.best ?? -1) - (b.best ?? -1)
  );
}

function texts(a: string, b: string): number {
  return a < b ? -1 : Number(a > b);
}

function keyOf({ to, from, fuel, how, unit }: FuelSpan): string {
  return `${to} ${from} ${fuel} ${how} ${unit}`;
}
