import fc from "fast-check";
import { expect, test } from "vitest";
import { timeOnFire } from "#server/measures/clockTime";

const load = (startMinute: number, minutes: number, day = "2031-06-03") => ({ day, startMinute, minutes });

test("08:00–09:30 and 08:45–10:00 are 120 minutes of the clock and 165 pan-minutes", () => {
  expect(timeOnFire([load(480, 90), load(525, 75)])).toEqual({ clockMinutes: 120, panMinutes: 165 });
});

test.each([
  ["apart", [load(480, 60), load(600, 30)], 90, 90],
  ["one inside the other", [load(480, 120), load(500, 30)], 120, 150],
  ["end to start", [load(480, 60), load(540, 60)], 120, 120],
  ["over midnight", [load(1400, 80), load(20, 60, "2031-06-04")], 120, 140],
  ["the same time on two days", [load(480, 60), load(480, 60, "2031-06-04")], 120, 120],
])("loads %s", (_, loads, clockMinutes, panMinutes) => {
  expect(timeOnFire(loads)).toEqual({ clockMinutes, panMinutes });
});

test("no load has no time", () => {
  expect(timeOnFire([])).toBeNull();
});

test("clock minutes are the minutes in which some pan was on the fire, whatever the order of the loads", () => {
  const someLoad = fc
    .tuple(
      fc.integer({ min: 0, max: 1439 }),
      fc.integer({ min: 1, max: 480 }),
      fc.constantFrom("2031-06-03", "2031-06-04"),
    )
    .map(([start, minutes, day]) => load(start, minutes, day));
  fc.assert(
    fc.property(fc.array(someLoad, { minLength: 1, maxLength: 12 }), (loads) => {
      const busy = new Set<number>();
      for (const { day, startMinute, minutes } of loads)
        for (let at = 0; at < minutes; at++) busy.add((day === "2031-06-03" ? 0 : 1440) + startMinute + at);
      const panMinutes = loads.reduce((sum, { minutes }) => sum + minutes, 0);
      expect(timeOnFire([...loads].reverse())).toEqual({ clockMinutes: busy.size, panMinutes });
    }),
    { seed: 41, numRuns: 200 },
  );
});
