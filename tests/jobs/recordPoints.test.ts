import { expect, test } from "vitest";
import { recordPoints } from "#server/jobs/shownStream";
import type { MonthRow } from "#server/jobs/watchOrder";
import { watchPlan } from "#server/jobs/watchPlan";
import { order } from "./watched";

const MONTHS = ["2030-08", "2030-09", "2030-10", "2030-11", "2030-12", "2031-01", "2031-02"];
const record = MONTHS.map((month, i) => ({
  month,
  owed: 50,
  missing: month === "2031-02" ? 25 : 3 + (i % 3),
  method: "sand-pan" as const,
  judgedFrom: `${MONTHS[i + 1] ?? "2031-03"}-06`,
  days: 25,
  clumping: 1,
}));
const site = { site: 1, streams: [], record };
const months: readonly MonthRow[] = watchPlan(
  order([site], { from: "2030-08", to: "2031-02", sayFrom: "2030-08", today: "2031-03-06" }),
).months;
const lastOn = (today: string) => recordPoints(site, months, { from: "2030-08", to: "2031-02", today }).at(-1);

test("a month whose log is not due yet is shown and not judged", () => {
  expect(lastOn("2031-03-05")).toMatchObject({ day: "2031-02-28", value: 0.5, centre: null, low: null, raised: null });
  expect(lastOn("2031-03-06")).toMatchObject({ value: 0.5, raised: "down", state: "far-outside" });
  expect(lastOn("2031-03-06")?.low).toBeGreaterThan(0.6);
});
