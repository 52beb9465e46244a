import { expect, test } from "vitest";
import { funnelOf } from "#server/compare/funnel";
import { seeded } from "../statistics/seeded";

/** Five sites with errors of one and ten: z values -2, -1, 0, 1, 2 round a target of 20. */
const five = [-2, -1, 0, 1, 2].map((z) => ({ value: 20 + z, se: 1, mass: 10 }));

test("limits lie 1.96 and 3.09 errors round the common value, wider by what chance does not explain", () => {
  // tenths at the places 0.4 and 3.6: ±1.6. phi = (1.6² + 1 + 0 + 1 + 1.6²) / 5 = 1.424
  // tau² = (5 · 1.424 − 4) / (5 − 5/5) = 3.12 / 4 = 0.78
  const funnel = funnelOf(five)!;
  expect(funnel.target).toBeCloseTo(20, 12);
  expect(funnel.phi).toBeCloseTo(1.424, 12);
  expect(funnel.tau2).toBeCloseTo(0.78, 12);
  expect(funnel.expectedOutside).toBeCloseTo(0.01, 12);
  expect(funnel.sites[0]!.inner.low).toBeCloseTo(20 - 1.959964 * Math.sqrt(1.78), 5);
  expect(funnel.sites[0]!.outer.high).toBeCloseTo(20 + 3.090232 * Math.sqrt(1.78), 5);
});

test("the common value is total over total, so a small trial hardly moves it", () => {
  const uneven = five.map((site, i) => ({ ...site, mass: i === 0 ? 1000 : 1 }));
  expect(funnelOf(uneven)!.target).toBeCloseTo((18 * 1000 + 19 + 20 + 21 + 22) / 1004, 12);
});

test("four sites have no limits; seven have limits and no marks; eight are marked", () => {
  expect(funnelOf(five.slice(1))).toBeNull();
  const [far, alike] = [
    { value: 40, se: 1, mass: 1 },
    { value: 20, se: 1, mass: 100 },
  ];
  const marks = (count: number) =>
    funnelOf([
      far,
      ...Array.from({ length: count - 1 }, (_, i) => ({ ...alike, value: 20 + 0.1 * (i % 3) })),
    ])!.sites.map(({ outside }) => outside);
  expect(marks(7).every((mark) => mark === null)).toBe(true);
  expect(marks(12)).toEqual(["above", ...Array.from({ length: 11 }, () => null)]);
});

test("of sites that differ by chance alone about two in a thousand are outside", () => {
  const chance = seeded(7);
  let [outside, expected] = [0, 0];
  for (let round = 0; round < 400; round++) {
    const sites = Array.from({ length: 12 }, () => {
      const se = 0.5 + chance.uniform();
      return { value: 30 + se * chance.normal(), se, mass: 1 / se ** 2 };
    });
    const funnel = funnelOf(sites)!;
    outside += funnel.sites.filter((site) => site.outside !== null).length;
    expected += funnel.expectedOutside;
  }
  expect(expected).toBeCloseTo(9.6, 6);
  expect(outside).toBeGreaterThan(0);
  expect(outside).toBeLessThan(20);
});

test("limits do not depend on the order of sites", () => {
  const there = funnelOf(five)!;
  const back = funnelOf([...five].reverse())!;
  expect(back.tau2).toBeCloseTo(there.tau2, 12);
  expect(back.sites.at(-1)!.outer.low).toBeCloseTo(there.sites[0]!.outer.low, 12);
});
