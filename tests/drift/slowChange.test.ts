import { expect, test } from "vitest";
import { seriesOf } from "#server/drift/series";
import { slowChanges } from "#server/drift/slowChange";
import { workingDays } from "./streams";

const PLAIN = { omega: 0.3, rho: 0 };
const stream = (seed: number, times: number) => ({
  series: seriesOf(workingDays(seed, 150, { at: 90, times })).series,
  pooled: PLAIN,
});

test("a small step among many streams is named, and hardly any other", () => {
  const streams = [stream(1, 1.05), ...Array.from({ length: 40 }, (_, i) => stream(i + 2, 1))];
  const found = slowChanges(streams, streams[0]!.series.day[90]!);
  expect(found[0]).toMatchObject({ named: true, days: 60, daysBefore: 90 });
  const held = found.filter(
    (one, i) => one!.low < Math.log(i === 0 ? 1.05 : 1) && one!.high > Math.log(i === 0 ? 1.05 : 1),
  );
  expect(held.length).toBeGreaterThanOrEqual(36); // 95 % of 41, less two standard deviations
  expect(found.slice(1).filter((one) => one!.named).length).toBeLessThanOrEqual(2);
  expect(found.every((one) => one!.adjusted >= one!.chance)).toBe(true);
});

test("streams where nothing changed are rarely named", () => {
  let programmes = 0;
  for (let run = 0; run < 40; run++) {
    const streams = Array.from({ length: 12 }, (_, i) => stream(1000 + 20 * run + i, 1));
    if (slowChanges(streams, streams[0]!.series.day[90]!).some((one) => one!.named)) programmes++;
  }
  expect(programmes).toBeLessThanOrEqual(9); // one in ten, and three standard deviations
});

test("too few days on either side are not compared", () => {
  const one = stream(1, 1.2);
  expect(slowChanges([one], one.series.day[5]!)).toEqual([null]);
  expect(slowChanges([one], one.series.day[145]!)).toEqual([null]);
});
