import fc from "fast-check";
import { expect, test } from "vitest";
import { retold, type Saying } from "#server/intake/match/retell";
import { differing, told, toldAnew } from "#server/intake/match/tell";
import type { Batch } from "#server/terms/batch";
import { load } from "./someBatches";

const names = { id: "b", site: 1, methodOn: () => "sand-pan" as const };
const kg = (value: number) => ({ exact: String(value), value });
const says = (
  row: string,
  at: number,
  changes: Parameters<typeof load>[0],
  part: Saying["part"] = "whole",
): Saying => ({
  row,
  at,
  part,
  written: load(changes),
  inTime: true,
});
const batch = (changes: Parameters<typeof load>[0]): Batch => ({
  ...load(changes),
  method: "sand-pan",
  id: "b",
  site: 1,
  inTime: true,
});

test("a batch is what its rows say, a later one over an earlier one, and what is left blank stays", () => {
  const sayings = [says("A 2", 1, { fresh: 10, dried: 3 }), says("B 2", 2, { fresh: 11, minutes: kg(90) })];
  expect(retold(sayings, [], names)).toEqual({ ...batch({ fresh: 11, dried: 3, minutes: kg(90) }) });
  expect(retold(sayings.slice(1), [], names)).toEqual(batch({ fresh: 11, minutes: kg(90) }));
  expect(retold([], [], names)).toBeNull();
});

test("a row that is read once more changes only what it says otherwise than the last time", () => {
  const sayings = [
    says("A 2", 1, { fresh: 10, dried: 3 }),
    says("B 2", 2, { fresh: 11, dried: 3 }),
    says("A 2", 3, { fresh: 10, dried: 3.3 }),
  ];
  expect(retold(sayings, [], names)).toEqual(batch({ fresh: 11, dried: 3.3 }));
});

test("what a row no longer says goes, unless another row says it otherwise by now", () => {
  const minutes = kg(90);
  const again = says("A 2", 3, { fresh: 10, dried: 3 });
  expect(retold([says("A 2", 1, { fresh: 10, dried: 3, minutes }), again], [], names)?.minutes).toBeNull();
  const other = says("B 2", 2, { fresh: 10, dried: 3, minutes: kg(95) });
  expect(retold([says("A 2", 1, { fresh: 10, dried: 3, minutes }), other, again], [], names)?.minutes).toEqual(kg(95));
});

test("a dried weight waits for the load, whichever is recorded first", () => {
  const dried = says("D 2", 1, { fresh: null, dried: 3.2 }, "dried");
  const loadRow = says("A 2", 2, { fresh: 10 });
  expect(retold([dried, loadRow], [], names)).toEqual(batch({ fresh: 10, dried: 3.2 }));
  expect(retold([dried], [], names)).toBeNull();
  expect(retold([loadRow], [], names)?.driedToCome).toBe(true);
});

test("a batch that was taken out stays out, until a row of another log tells it anew", () => {
  const first = says("A 2", 1, { fresh: 10, dried: 3 });
  expect(retold([first], [{ at: 2 }], names)).toBeNull();
  expect(retold([first, says("A 2", 3, { fresh: 10, dried: 3 })], [{ at: 2 }], names)).toBeNull();
  expect(retold([first, says("B 2", 3, { fresh: 11, dried: 3 })], [{ at: 2 }], names)).toEqual(
    batch({ fresh: 11, dried: 3 }),
  );
});

test("a row told anew with nothing changed changes nothing, and one with a field changed changes that field alone", () => {
  const some = fc.record({
    fresh: fc.constantFrom(1, 9.5, 10),
    dried: fc.constantFrom(null, 0.3, 3),
    minutes: fc.constantFrom(null, kg(80), kg(90)),
    pan: fc.constantFrom(null, "1"),
  });
  fc.assert(
    fc.property(some, some, some, (first, other, again) => {
      const before = told(batch(first), load(other));
      expect(toldAnew(before, load(first), load(first))).toEqual(before);
      const after = toldAnew(before, load(first), load(again));
      for (const field of differing(before, after))
        if (field !== "driedToCome") expect(differing(load(first), load(again))).toContain(field);
    }),
    { seed: 11, numRuns: 300 },
  );
});
