import { expect, test } from "vitest";
import { planInThread } from "#server/jobs/watchInThread";
import { workingDays } from "../drift/streams";
import { order, plan, site } from "./watched";

test("a thread plans what would be planned here, order after order and two at once", async () => {
  const long = order(Array.from({ length: 30 }, (_, i) => site(i + 1, workingDays(i + 1, 150))));
  const here = plan(long);
  expect(here.months).toHaveLength(6);
  expect(await planInThread(long)).toEqual(here);
  expect(await planInThread(long)).toEqual(here);
  expect(await Promise.all([planInThread(long), planInThread(long)])).toEqual([here, here]);
}, 60_000);

test("an order that cannot be planned is refused, and the next one is planned", async () => {
  const long = order(Array.from({ length: 30 }, (_, i) => site(i + 1, workingDays(i + 1, 150))));
  const broken = { ...long, accepted: { "2031-01": { perMonth: 0, reading: "on-average" as const } } };
  await expect(planInThread(broken)).rejects.toThrow("false alarms accepted are more than none");
  expect((await planInThread(long)).months).toHaveLength(6);
}, 60_000);
