import { type FuelEntry, fuelEntriesOf, fuelSpansOf } from "#db/queries/fuel";
import type { Changes } from "#db/queries/recorded";
import type { Tx } from "#db/store";
import { fuelSpansFrom } from "#server/measures/fuelEntries";
import type { Fact } from "#server/terms/facts";
import type { FuelSpan } from "#server/terms/fuel";

const EVERYTHING = Number.MAX_SAFE_INTEGER;

/** Fuel spans of a site that change with some entries: worked out from all entries, and of those only the different ones. */
export async function refuel(
  tx: Tx,
  site: number,
  revised: ReadonlyMap<string, FuelEntry>,
  facts: readonly Fact[],
): Promise<Pick<Changes, "fuelSpans">> {
  const stored = await fuelEntriesOf(tx, site, EVERYTHING);
  const kept = stored.filter(({ id }) => !revised.has(id));
  const after = fuelSpansFrom([...kept, ...[...revised.values()].filter(({ withdrawn }) => !withdrawn)], facts);
  const before = await fuelSpansOf(tx, [site], "0001-01-01", "9999-12-31", EVERYTHING);
  const was = new Map(before.map((span) => [spanKey(span), span]));
  const is = new Set(after.map(spanKey));
  return {
    fuelSpans: [
      ...after.filter((span) => !same(span, was.get(spanKey(span)))).map((span) => ({ ...span, gone: false })),
      ...before.filter((span) => !is.has(spanKey(span))).map((span) => ({ ...span, gone: true })),
    ],
  };
}

const spanKey = (span: FuelSpan) => [span.from, span.to, span.fuel, span.how, span.unit].join(" ");

function same(a: FuelSpan, b: FuelSpan | undefined): boolean {
  return (
    b !== undefined &&
    a.unit === b.unit &&
    a.low === b.low &&
    a.best === b.best &&
    a.high === b.high &&
    a.shared === b.shared
  );
}
