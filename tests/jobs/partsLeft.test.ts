import { describe, expect, test } from "vitest";
import type { FuelLeft, LoadLeft } from "#db/queries/left";
import { partsLeft } from "#server/jobs/partsLeft";

const load = (site: number, day: string, number: string, more: Partial<LoadLeft> = {}): LoadLeft => ({
  batch: `${site} ${day} ${number}`,
  site,
  day,
  number,
  loads: 1,
  inSet: false,
  ...more,
});
const fuel = (site: number, day: string, batch: string | null): FuelLeft => ({
  id: `${day} ${batch}`,
  site,
  day,
  batch,
});

describe("what is left of a log", () => {
  test("is taken apart by days, the fuel of a load with the load, whatever day its own is", () => {
    const [first, second] = [load(1, "2031-03-01", "1"), load(1, "2031-03-02", "1")];
    const alone = fuel(1, "2031-02-01", null);
    const with2 = fuel(1, "2031-03-01", second.batch);
    expect(partsLeft([second, first], [with2, alone], 1)).toEqual([
      [{ site: 1, batches: [], fuel: [alone.id] }],
      [{ site: 1, batches: [first.batch], fuel: [] }],
      [{ site: 1, batches: [second.batch], fuel: [with2.id] }],
    ]);
  });

  test("keeps a set on the day of its first load together with the days of later loads whose place it took", () => {
    const set = load(1, "2031-03-01", "3+4", { loads: 2 });
    const [three, four] = [load(1, "2031-03-01", "3"), load(1, "2031-03-02", "4")].map((one) => ({
      ...one,
      inSet: true,
    }));
    const other = load(1, "2031-03-02", "5");
    const otherSet = load(1, "2031-02-27", "3+4", { loads: 2 });
    const parts = partsLeft(
      [set, three, four, other, otherSet].flatMap((one) => one ?? []),
      [],
      1,
    );
    expect(parts.map((part) => part.flatMap(({ batches }) => batches))).toEqual([
      [otherSet.batch],
      [set.batch, three?.batch, four?.batch, other.batch],
    ]);
  });

  test("has every load and every entry in one part, no day's loads apart, and no part over its size but for one day", () => {
    for (let seed = 1; seed <= 50; seed++) {
      const at = (of: number, times: number) => ((seed * 7919 + times * 104_729) >> 3) % of;
      const loads = Array.from({ length: 200 }, (_, i) =>
        load(at(3, i), `2031-03-${String(1 + at(28, i * 3)).padStart(2, "0")}`, `${i}`),
      );
      const entries = loads.flatMap(({ site, day, batch }, i) => (i % 3 === 0 ? [fuel(site, day, batch)] : []));
      const parts = partsLeft(loads, entries, 20);
      const batches = parts.flat().flatMap((one) => one.batches);
      expect([...batches].sort(), `seed ${seed}`).toEqual(loads.map(({ batch }) => batch).sort());
      expect(
        parts
          .flat()
          .flatMap((one) => one.fuel)
          .sort(),
      ).toEqual(entries.map(({ id }) => id).sort());
      const partOf = new Map(
        parts.flatMap((part, index) => part.flatMap((one) => one.batches.map((id) => [id, index]))),
      );
      const days = new Map<string, number | undefined>();
      for (const { site, day, batch } of loads) {
        const first = days.get(`${site} ${day}`) ?? partOf.get(batch);
        expect(partOf.get(batch), `seed ${seed}, ${day}`).toBe(first);
        days.set(`${site} ${day}`, first);
      }
      for (const part of parts) {
        const own = new Set(part.flatMap((one) => one.batches));
        const ofDays = new Set(loads.flatMap(({ site, day, batch }) => (own.has(batch) ? [`${site} ${day}`] : [])));
        expect(own.size <= 20 || ofDays.size === 1, `seed ${seed}`).toBe(true);
      }
    }
  });
});
