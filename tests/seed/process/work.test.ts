import { expect, test } from "vitest";
import { work } from "#seed/process/work";
import { SITES } from "#seed/scenario";
import type { Nature } from "#seed/site";
import { effectsOn } from "#seed/stories";

const natureOf = (site: string) => SITES.find(({ code }) => code === site)?.nature;

function yearOf(nature: Nature) {
  const order = { from: "2030-07-01", to: "2031-06-30", isFree: () => false, mostLoads: Number.POSITIVE_INFINITY };
  return work(7, "somewhere", { ...order, natureOn: () => nature, effectsOn: (day) => effectsOn([], "", day) }).days;
}

const full = ({ cylinderKg, fuelStep }: Nature) => Math.round((cylinderKg ?? 0) / fuelStep);

test("cylinders left on until the flame goes out lose no gas: put on are as many as burned and left", () => {
  const nature = natureOf("UF");
  if (nature === undefined) throw new Error("there is no such site");
  expect(nature.untilEmpty).toBe(true);
  const days = yearOf(nature);
  const putOn = days.reduce((sum, { cylindersOn }) => sum + cylindersOn, 0) * full(nature);
  const burned = days.reduce((sum, { fuelSteps }) => sum + fuelSteps, 0);
  expect(putOn).toBe(burned + (days.at(-1)?.gasAfter ?? 0));
  expect(days.every(({ gasAfter }) => gasAfter >= 0 && gasAfter <= full(nature))).toBe(true);
});

test("a cylinder that is weighed is changed in the morning, and never holds more than a full one", () => {
  const nature = natureOf("OJ");
  if (nature === undefined) throw new Error("there is no such site");
  const days = yearOf(nature);
  expect(days.some(({ cylindersOn }) => cylindersOn > 0)).toBe(true);
  for (const { cylindersOn, gasBefore, gasAfter, fuelSteps } of days) {
    expect(gasBefore - gasAfter).toBe(fuelSteps);
    expect(gasBefore).toBeLessThanOrEqual(Math.max(1, cylindersOn) * full(nature));
    if (cylindersOn > 0) expect(gasBefore).toBe(cylindersOn * full(nature));
  }
});
