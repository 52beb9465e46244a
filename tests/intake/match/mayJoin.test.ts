import { expect, test } from "vitest";
import { asOneSet, idsJoined, joinedWith } from "#server/intake/match/asOneSet";
import { mayJoin } from "#server/intake/match/mayJoin";
import { quantity } from "#server/intake/values/exact";
import type { Batch } from "#server/terms/batch";
import { load } from "./someBatches";

const at = (id: string, day: string, number: string | null, fresh: number, more: Partial<Batch> = {}): Batch => ({
  ...load({ day, number, fresh, dried: null }),
  id,
  site: 1,
  inTime: true,
  method: "sand-pan",
  ...more,
});
const dried = (kg: number, day: string, number: string | null = null) => load({ day, number, fresh: null, dried: kg });
const offered = (row: ReturnType<typeof dried>, known: readonly Batch[]) =>
  mayJoin(
    row,
    known.map((batch) => ({ id: batch.id, batch })),
  ).map((loads) => loads.map(({ id }) => id).join("+"));

const MONDAY = [at("a", "2031-04-07", "3", 10), at("b", "2031-04-07", "4", 11), at("c", "2031-04-07", "5", 12)];
const FRIDAY = [at("x", "2031-04-04", "3", 10), at("y", "2031-04-04", "4", 11)];

test("the loads that the number names come first, those of the last day next, then each that has a plausible yield", () => {
  expect(offered(dried(7, "2031-04-08", "3+4"), [...MONDAY, ...FRIDAY])).toEqual(["a+b", "x+y", "a+b+c"]);
  expect(offered(dried(3.6, "2031-04-07"), MONDAY)).toEqual(["a+b+c", "a", "b", "c"]);
  expect(offered(dried(3.6, "2031-04-07", "4"), MONDAY)).toEqual(["b", "a+b+c", "a", "c"]);
});

test("more loads of a day than go onto one weighing are not offered as one", () => {
  const day = (count: number) => Array.from({ length: count }, (_, at_) => at(`l${at_}`, "2031-04-07", null, 1));
  expect(offered(dried(12, "2031-04-07"), day(40))).toEqual([
    day(40)
      .map(({ id }) => id)
      .join("+"),
  ]);
  expect(offered(dried(12, "2031-04-07"), day(41))).toEqual([]);
});

test("no load that has its dried weight, lies after the weighing or a week before it, or is less than came out", () => {
  const done = at("d", "2031-04-07", "6", 9, { dried: quantity("3") });
  const later = at("e", "2031-04-09", "7", 9);
  const old = at("f", "2031-03-20", "8", 9);
  expect(offered(dried(3, "2031-04-08"), [done, later, old])).toEqual([]);
  expect(offered(dried(40, "2031-04-08", "3+4+5"), MONDAY)).toEqual([]);
});

test("as one batch loads have all fresh weights and minutes, on the first day; not where one has a dried weight", () => {
  const row = dried(11, "2031-04-08", "3+4+5");
  const [first, ...rest] = MONDAY.map((one) => ({ ...one, minutes: quantity("80"), pan: "1" }));
  if (first === undefined) throw new Error("there are three");
  const set = asOneSet([...rest, { ...first, day: "2031-04-06", pan: "2" }], row, "new");
  expect(set).toMatchObject({ id: "new", day: "2031-04-06", grain: "set", loads: 3, number: "3+4+5", pan: null });
  expect([set?.fresh?.exact, set?.dried?.exact, set?.minutes?.exact]).toEqual(["33", "11", "240"]);
  expect(asOneSet([first, { ...first, dried: quantity("3") }], row, "new")).toBeNull();
  expect(asOneSet([first, { ...first, fresh: null }], row, "new")).toBeNull();
});

test("the answer names its loads, and no other answer does", () => {
  expect(idsJoined(joinedWith(["a", "b"]))).toEqual(["a", "b"]);
  for (const other of ["new", "instead", "an-id", undefined]) expect(idsJoined(other)).toBeNull();
});
