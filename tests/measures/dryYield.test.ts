import { expect, test } from "vitest";
import { daySums } from "#server/measures/daySums";
import { dryYield } from "#server/measures/dryYield";
import { daysBetween } from "#server/terms/days";
import { ABOUT, batch, fact } from "./invented";

const yieldOf = (batches: Parameters<typeof daySums>[0], about = ABOUT) => dryYield(daySums(batches, []), about);

test.each([
  {
    said: "pools masses, not ratios",
    batches: [
      [10, 3],
      [30, 11],
    ],
    value: 14 / 40,
    used: 2,
  },
  {
    said: "skips a batch with no dried mass",
    batches: [
      [10, 3],
      [30, null],
    ],
    value: 3 / 10,
    used: 1,
  },
  {
    said: "skips a batch with no fresh mass",
    batches: [
      [10, 3],
      [null, 11],
    ],
    value: 3 / 10,
    used: 1,
  },
] as const)("dryYield $said", ({ batches, value, used }) => {
  const figure = yieldOf(batches.map(([fresh, dried]) => batch("2031-06-02", fresh, dried)));
  expect(figure).toMatchObject({ known: true, value, unit: "kg/kg", restsOn: { used, here: 2, owed: null } });
});

test("dryYield is unknown when no batch has both weights, and when nothing is here", () => {
  expect(yieldOf([batch("2031-06-02", 10, null)])).toMatchObject({ known: false, why: "no-batch-with-both-weights" });
  expect(yieldOf([], { ...ABOUT, nothing: "nothing-logged" })).toMatchObject({ known: false, why: "nothing-logged" });
  expect(yieldOf([], { ...ABOUT, nothing: "not-open" })).toMatchObject({ known: false, why: "not-open" });
});

test("dryYield has an interval by day from five days on, with days less one in Student's t", () => {
  const days = daysBetween("2031-06-02", "2031-06-06");
  const dried = [3.0, 3.2, 3.4, 3.1, 3.3];
  const five = days.map((day, i) => batch(day, 10, dried[i]!));
  const figure = yieldOf(five);
  // residuals −.2 0 .2 −.1 .1: Σ² = 0.10; se = √(5/4 · 0.10)/50 = 0.00707107; t(4) = 2.776445
  expect(figure).toMatchObject({ known: true, value: 0.32 });
  if (!figure.known) throw new Error("unknown");
  expect(figure.interval?.low).toBeCloseTo(0.32 - 2.776445 * 0.00707107, 7);
  expect(figure.interval?.high).toBeCloseTo(0.32 + 2.776445 * 0.00707107, 7);
  expect(yieldOf(five.slice(1))).toMatchObject({ interval: null });
});

test("dryYield adds the variance of the scale's steps to its interval", () => {
  const five = daysBetween("2031-06-02", "2031-06-06").map((day) => batch(day, 10, 3));
  const facts = [fact("scale-step", { kg: 0.5 }, { key: "dried" }), fact("scale-step", { kg: 0.5 }, { key: "fresh" })];
  const figure = dryYield(daySums(five, facts), ABOUT);
  if (!figure.known || !figure.interval) throw new Error("unknown");
  // no scatter by day; var = 5 · 0.5²/12 · (1 + 0.3²) / 50²
  const se = Math.sqrt((5 * 0.25 * 1.09) / 12) / 50;
  expect(figure.interval.high - 0.3).toBeCloseTo(2.776445 * se, 7);
});

/** Seeded numbers between 0 and 1 (a linear congruential generator), so that a failure can be repeated. */
function chance(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 1664525 + 1013904223) % 4294967296;
    return state / 4294967296;
  };
}

test("dryYield is the same in grams and whether a load is written on one line or two", () => {
  for (let seed = 1; seed <= 200; seed++) {
    const next = chance(seed);
    const rows = daysBetween("2031-06-01", "2031-06-08").map((day) => [day, 5 + 10 * next(), 1 + 3 * next()] as const);
    const plain = yieldOf(rows.map(([day, fresh, dried]) => batch(day, fresh, dried)));
    const grams = yieldOf(rows.map(([day, fresh, dried]) => batch(day, fresh * 1000, dried * 1000)));
    const halves = yieldOf(
      rows.flatMap(([day, fresh, dried]) => [batch(day, fresh / 2, dried / 2), batch(day, fresh / 2, dried / 2)]),
    );
    if (!plain.known || !grams.known || !halves.known) throw new Error(`unknown, seed ${seed}`);
    for (const other of [grams, halves]) {
      expect(other.value, `seed ${seed}`).toBeCloseTo(plain.value, 12);
      expect(other.interval?.low, `seed ${seed}`).toBeCloseTo(plain.interval!.low, 12);
    }
  }
});
