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
 * Amounts in rows become spans of one day, cylinders put on and weighed spans of their own; declared spans stand as declared.
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
  return [...amountSpans(amounts, facts), ...declared, ...cylinderSpans(events, facts)].sort(inOrder);
}

function inOrder(a: FuelSpan, b: FuelSpan): number {
  const [left, right] = [a, b].map((span) => [span.to, span.from, span.fuel, span.how, span.unit].join(" ")) as [
    string,
    string,
  ];
  return left < right ? -1 : Number(left > right);
}
