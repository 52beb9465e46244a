import { expect, test } from "vitest";
import { coincidencesOf, noticedAmong } from "#server/jobs/coincidences";
import type { SiteLog } from "#server/jobs/siteLogs";
import type { Fact } from "#server/terms/facts";

const change = { measure: "dry-yield", sinceFrom: "2031-04-01", sinceTo: "2031-04-04" } as const;
const log = (month: string, said: Partial<SiteLog> = {}): SiteLog => ({
  site: 2,
  file: month,
  from: `${month}-01`,
  to: `${month}-28`,
  columns: "A day, B fresh, C dried",
  perKg: 1,
  ...said,
});
const earlier = [log("2031-02"), log("2031-03", { perKg: 1.001 })];

test("a log laid out like those before is not told of", () => {
  expect(coincidencesOf(change, [], [...earlier, log("2031-04")])).toEqual([]);
  expect(coincidencesOf(change, [], [log("2031-04")])).toEqual([]);
});

test("a log weighed in g after logs in kg is noticed, and asked about first; so is another layout", () => {
  const unit = coincidencesOf(change, [], [...earlier, log("2031-04", { perKg: 1000 })]);
  expect(unit).toEqual([{ day: "2031-04-01", what: "unit", how: "noticed" }]);
  expect(noticedAmong(unit)).toEqual([{ day: "2031-04-01", what: "unit" }]);
  const layout = coincidencesOf(change, [], [...earlier, log("2031-04", { columns: "A day, C fresh, D dried" })]);
  expect(layout).toEqual([{ day: "2031-04-01", what: "log-layout", how: "noticed" }]);
});

test("what was declared near the change is told; what was declared long before is not", () => {
  const pans = (from: string, count: number): Fact<"pans"> => ({
    ...{ site: 2, kind: "pans", key: "", from, to: null, value: { pans: count }, ledgerIndex: 1, declaredOn: from },
  });
  const facts = [pans("2031-01-01", 2), pans("2031-02-01", 3), pans("2031-04-05", 4)];
  expect(coincidencesOf(change, facts, [])).toEqual([{ day: "2031-04-05", what: "pan", how: "declared" }]);
});
