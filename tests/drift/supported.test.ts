import { expect, test } from "vitest";
import { CLAMP, LAMBDA, LEARN } from "#server/drift/parameters";
import { lifeOf } from "#server/drift/reference";
import { seriesOf } from "#server/drift/series";
import { isSupported } from "#server/drift/supported";
import { watchStream } from "#server/drift/watch";
import { workingDays } from "./streams";

const POOLED = { omega: 0.3, rho: 0.1, d0: 10, s02: 0.0025, worth: 1 };
const RULES = { learn: LEARN, lambda: LAMBDA, clamp: CLAMP, edge: 0.7, spikeAt: 5.2 };
const signals = (points: ReturnType<typeof workingDays>) =>
  watchStream(seriesOf(points).series, lifeOf([], []), POOLED, RULES).flatMap((one) => one.signals);

test("a signal keeps its support when a day arrives late, and loses it when the days are corrected", () => {
  const points = workingDays(1, 90, { at: 60, times: 1.12 });
  const [raised] = signals(points.filter((_, i) => i !== 63));
  expect(isSupported(raised!, signals(points))).toBe(true);
  const corrected = points.map((point, i) => (i < 60 ? point : { ...point, numerator: point.numerator / 1.12 }));
  expect(isSupported(raised!, signals(corrected))).toBe(false);
});

test("a change the other way, or at another time, is no support", () => {
  const raised = { direction: "up", raisedOn: "2031-03-20", sinceFrom: "2031-03-01", sinceTo: "2031-03-08" } as const;
  expect(isSupported(raised, [{ ...raised, direction: "down" }])).toBe(false);
  expect(
    isSupported(raised, [{ ...raised, raisedOn: "2031-06-20", sinceFrom: "2031-06-01", sinceTo: "2031-06-08" }]),
  ).toBe(false);
  expect(isSupported(raised, [{ ...raised, raisedOn: "2031-03-25", sinceFrom: "2031-03-08" }])).toBe(true);
  expect(isSupported(raised, [])).toBe(false);
});
