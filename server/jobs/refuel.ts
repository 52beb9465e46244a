import { type FuelEntry, fuelEntriesOf, fuelSpansOf } from "#db/queries/fuel";
import { fuelChain, fuelEntriesById, fuelEntriesOn } from "#db/queries/fuelReach";
import type { Changes } from "#db/queries/recorded";
import type { Tx } from "#db/store";
import { fuelSpansFrom } from "#server/measures/fuelEntries";
import type { Fact } from "#server/terms/facts";
import type { FuelSpan } from "#server/terms/fuel";

const EVERYTHING = Number.MAX_SAFE_INTEGER;

type Spans = Required<Pick<Changes, "fuelSpans">>;

/** Some days, with every entry that stands on them, and others: none of these needs to be asked for again. */
export interface KnownFuel {
  readonly days: ReadonlySet<string>;
  readonly entries: readonly FuelEntry[];
}

const NOTHING_MADE: ReadonlySet<string> = new Set();
const NOTHING_KNOWN: KnownFuel = { days: new Set(), entries: [] };

/**
 * Fuel spans of a site that change with some entries.
 *
 * Worked out twice, as it was and as it is now, from the entries in reach of those that change: of their days, and of the
 * cylinder book around them. What is cut off at the ends of the reach is cut off both times, so it shows no difference.
 * `made` are entries that are in no table yet, `known` what was asked for before.
 */
export async function refuel(
  tx: Tx,
  site: number,
  revised: ReadonlyMap<string, FuelEntry>,
  facts: readonly Fact[],
  {
    made = NOTHING_MADE,
    known: there = NOTHING_KNOWN,
  }: { readonly made?: ReadonlySet<string>; readonly known?: KnownFuel } = {},
): Promise<Spans> {
  const known = there.entries.filter(({ id }) => revised.has(id));
  const told = new Set([...made, ...known.map(({ id }) => id)]);
  const others = [...revised.keys()].filter((id) => !told.has(id));
  const asked = others.length === 0 ? [] : await fuelEntriesById(tx, others);
  const touched = [...known, ...asked, ...revised.values()];
  const days = new Set(touched.map(({ day }) => day));
  while (days.size > 0) {
    const reach = await inReach(tx, site, touched, [...days].sort(), there);
    const kept = reach.filter(({ id }) => !revised.has(id));
    const now = [...kept, ...[...revised.values()].filter(({ withdrawn }) => !withdrawn)];
    const spans = different(fuelSpansFrom(reach, facts), fuelSpansFrom(now, facts));
    // The weights of a day and an amount on it are one fact written twice, so then that day's amounts are asked for too.
    const beside = spans.filter(({ from, to, how }) => how === "weighed" && from === to && !days.has(from));
    if (beside.length === 0) return { fuelSpans: spans };
    for (const { from } of beside) days.add(from);
  }
  return { fuelSpans: [] };
}

/** The same after something was declared that all spans of a site rest on. */
export async function refuelAll(tx: Tx, site: number, facts: readonly Fact[]): Promise<Spans> {
  const before = await fuelSpansOf(tx, [site], "0001-01-01", "9999-12-31", EVERYTHING);
  return { fuelSpans: different(before, fuelSpansFrom(await fuelEntriesOf(tx, site, EVERYTHING), facts)) };
}

async function inReach(
  tx: Tx,
  site: number,
  touched: readonly FuelEntry[],
  days: readonly string[],
  there: KnownFuel,
): Promise<FuelEntry[]> {
  const wanted = new Set(days);
  const known = there.entries.filter(({ day }) => wanted.has(day) && there.days.has(day));
  const others = days.filter((day) => !there.days.has(day));
  const asked = others.length === 0 ? [] : await fuelEntriesOn(tx, site, others);
  const found = new Map([...known, ...asked].map((entry) => [entry.id, entry]));
  const fuels = new Set(touched.map(({ fuel }) => fuel));
  // amounts are spans of their own day: where a day has nothing else, no book around it matters
  const booked = [...touched, ...found.values()].filter(({ fuel, said }) => fuels.has(fuel) && said.kind !== "amount");
  for (const fuel of new Set(booked.map(({ fuel }) => fuel)))
    for (const entry of await fuelChain(tx, site, fuel, days[0] ?? "", days.at(-1) ?? "")) found.set(entry.id, entry);
  return [...found.values()];
}

function different(before: readonly FuelSpan[], after: readonly FuelSpan[]): Spans["fuelSpans"][number][] {
  const was = new Map(before.map((span) => [spanKey(span), span]));
  const is = new Set(after.map(spanKey));
  return [
    ...after.filter((span) => !same(span, was.get(spanKey(span)))).map((span) => ({ ...span, gone: false })),
    ...before.filter((span) => !is.has(spanKey(span))).map((span) => ({ ...span, gone: true })),
  ];
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
