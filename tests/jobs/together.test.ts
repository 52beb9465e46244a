import { expect, test } from "vitest";
import { lifeOf } from "#server/drift/reference";
import { seriesOf } from "#server/drift/series";
import { type WatchedMonth, watchMonth } from "#server/drift/watchMonth";
import { isLone, isPartOf, togetherIn } from "#server/jobs/together";
import { monthsBetween } from "#server/terms/days";
import { workingDays } from "../drift/streams";

/** Ten months of some sites; each changes on its 150th working day, 27 June 2031, by its own factor. */
function programme(factors: readonly number[]) {
  const streams = factors.map((times, i) => ({
    name: { site: i + 1, method: "sand-pan", measure: "dry-yield" } as const,
    series: seriesOf(workingDays(i + 1, 230, { at: 150, times })).series,
    life: lifeOf([], []),
  }));
  return monthsBetween("2031-04", "2031-09").map((month) => watchMonth(streams, month));
}

const toldTogether = (month: WatchedMonth) => togetherIn(month, () => []);

test("what all sites do is told once, with its size, and theirs are part of it", () => {
  const months = programme([0.93, 0.92, 0.94, 0.93, 0.92, 0.93, 0.94]);
  const together = months.flatMap(toldTogether);
  expect(together[0]).toMatchObject({ site: null, method: "sand-pan", measure: "dry-yield", direction: "down" });
  expect(together[0]!.raisedOn >= "2031-07-01" && together[0]!.raisedOn <= "2031-08-31").toBe(true);
  expect(together[0]!.change).toBeGreaterThan(-0.1);
  expect(together[0]!.change).toBeLessThan(-0.03);
  const own = months.flatMap(({ signals }) => signals).filter(({ raisedOn }) => raisedOn > "2031-06-27");
  expect(own.length).toBeGreaterThan(3);
  const partOf = own.filter((signal) => isPartOf(signal, together)).length;
  expect(partOf / own.length).toBeGreaterThan(0.8);
});

test("one site that changes by itself is part of nothing", () => {
  const months = programme([1.15, 1, 1, 1, 1, 1, 1]);
  const together = months.flatMap(toldTogether);
  const own = months.flatMap(({ signals }) => signals).filter(({ site }) => site === 1);
  expect(own.some(({ direction }) => direction === "up")).toBe(true);
  expect(own.filter((signal) => isPartOf(signal, together))).toEqual([]);
});

test("four sites do nothing together", () => {
  expect(programme([0.9, 0.9, 0.9, 0.9]).flatMap(toldTogether)).toEqual([]);
});

test("the only site with its dryer is laid beside what the sites of another did then, a site among its like is not", () => {
  const together = programme([0.93, 0.92, 0.94, 0.93, 0.92, 0.93, 0.94]).flatMap(toldTogether);
  const [common] = together;
  const other = { ...common!, site: 8, method: "sun" } as const;
  expect(isPartOf(other, together, true)).toBe(true);
  expect(isPartOf(other, together)).toBe(false);
  expect(isPartOf({ ...other, direction: "up" }, together, true)).toBe(false);
  expect(isPartOf({ ...other, measure: "throughput" }, together, true)).toBe(false);
  const later = { since: "2032-01-10", sinceFrom: "2032-01-05", sinceTo: "2032-01-14" };
  expect(isPartOf({ ...other, ...later }, together, true)).toBe(false);
});

test("a site is lone while fewer than five streams of its method and measure are watched", () => {
  const names = [1, 2, 3, 4].map((site) => ({ site, method: "sun", measure: "dry-yield" }) as const);
  expect(isLone(names[0]!, names)).toBe(true);
  expect(isLone(names[0]!, [...names, { ...names[0]!, site: 5, measure: "throughput" }])).toBe(true);
  expect(isLone(names[0]!, [...names, { ...names[0]!, site: 5 }])).toBe(false);
});
