import { describe, expect, test } from "vitest";
import { asPerson } from "#db/asPerson";
import { type FuelEntry, fuelEntriesOf, fuelSpansOf } from "#db/queries/fuel";
import { newId } from "#server/jobs/newId";
import { record } from "#server/jobs/record";
import { refuel } from "#server/jobs/refuel";
import { fuelSpansFrom } from "#server/measures/fuelEntries";
import { plusDays } from "#server/terms/days";
import { OPERATOR } from "#server/terms/person";
import { freshStore, KINDS } from "../setup/stores";
import { seeded } from "../statistics/seeded";

const EVERYTHING = Number.MAX_SAFE_INTEGER;
const STEPS = 60;

describe.each(KINDS)("fuel on %s", (kind) => {
  test("spans worked out near a change are those worked out from everything", { timeout: 120_000 }, async () => {
    const opened = await freshStore(kind);
    const corridor = { store: opened.store, person: OPERATOR.id, clock: () => new Date("2031-06-01T00:00:00Z") };
    for (const seed of [1, 2, 3, 4]) {
      const { uniform } = seeded(seed);
      const below = (end: number) => Math.floor(uniform() * end);
      const site = seed;
      const standing: FuelEntry[] = [];
      for (let step = 0; step < STEPS; step++) {
        const revised = new Map<string, FuelEntry>();
        for (let lines = 1 + below(3); lines > 0; lines--) {
          const entry = standing.length > 4 && below(3) === 0 ? another(below, standing) : fresh(below, site);
          revised.set(entry.id, entry);
        }
        for (const entry of revised.values()) {
          const at = standing.findIndex(({ id }) => id === entry.id);
          if (at >= 0) standing.splice(at, 1);
          if (!entry.withdrawn) standing.push(entry);
        }
        await record(corridor, async (tx) => ({
          command: "declare",
          site,
          changes: { fuelEntries: [...revised.values()], ...(await refuel(tx, site, revised, [])) },
          answer: () => null,
        }));
        const [spans, again] = await asPerson(corridor, async (tx) => [
          await fuelSpansOf(tx, [site], "0001-01-01", "9999-12-31", EVERYTHING),
          fuelSpansFrom(await fuelEntriesOf(tx, site, EVERYTHING), []),
        ]);
        expect(sorted(spans), `seed ${seed}, step ${step}`).toEqual(sorted(again));
      }
    }
    await opened.close();
  });
});

type Below = (end: number) => number;

/** A new line on one of thirty days: mostly an amount, else a cylinder put on or weighed. */
function fresh(below: Below, site: number): FuelEntry {
  const kg = (value: number) => ({ exact: String(value), value });
  const level = () => kg(10 + below(8));
  const said = (
    [
      { kind: "amount", amount: kg(1 + below(5)), unit: "kg" },
      { kind: "cylinder-change", count: below(3) },
      { kind: "gross", before: level(), after: null },
      { kind: "gross", before: null, after: level() },
      { kind: "gross", before: level(), after: level() },
    ] as const
  )[Math.max(0, below(9) - 4)]!;
  const day = plusDays("2031-05-01", below(30));
  return { id: newId(), site, day, fuel: "lpg", batch: null, said, file: null, withdrawn: false };
}

/** A line that stands, withdrawn or moved to another day. */
function another(below: Below, standing: readonly FuelEntry[]): FuelEntry {
  const entry = standing[below(standing.length)]!;
  return below(2) === 0 ? { ...entry, withdrawn: true } : { ...entry, day: plusDays("2031-05-01", below(30)) };
}

function sorted(spans: readonly object[]): string[] {
  return spans.map((span) => JSON.stringify(Object.entries(span).sort(([a], [b]) => (a < b ? -1 : 1)))).sort();
}
