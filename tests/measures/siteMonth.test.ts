import fc from "fast-check";
import { expect, test } from "vitest";
import { daySums } from "#server/measures/daySums";
import { monthSums } from "#server/measures/monthSums";
import { MEASURES } from "#server/measures/siteFigures";
import { type SiteInput, siteMonth } from "#server/measures/siteMonth";
import { ratioFromSums } from "#server/statistics/ratio";
import type { Batch, Method } from "#server/terms/batch";
import { daysBetween, daysOfMonth, plusDays } from "#server/terms/days";
import type { Fact } from "#server/terms/facts";
import type { FuelSpan } from "#server/terms/fuel";
import { batch, fact, NOW, SITE, span, valued } from "./invented";

type Said = { batches: readonly Batch[]; spans?: readonly FuelSpan[]; facts?: readonly Fact[]; method?: Method | null };

function worked({ batches, spans = [], facts = [], method = null }: Said, period = daysOfMonth("2031-06")) {
  const input: SiteInput = {
    site: SITE,
    period,
    method,
    sums: daySums(batches, facts),
    spans,
    facts,
    numbered: [],
    asKnownOn: NOW,
  };
  return siteMonth(input);
}

test("every figure is there by name, known or with its reason, and carries its moment and edition", () => {
  const { figures } = worked({ batches: [] });
  expect(Object.keys(figures)).toEqual([...MEASURES]);
  for (const measure of MEASURES) {
    expect(figures[measure], measure).toMatchObject({ known: false, asKnownOn: NOW, edition: expect.any(String) });
  }
});

test.each([
  { said: "nothing was logged", facts: [], why: "nothing-logged" },
  { said: "the site was not open", facts: [fact("open", {}, { from: "2031-07-01" })], why: "not-open" },
  {
    said: "the site filed that nothing was produced",
    facts: [fact("nothing-produced", {}, { from: "2031-06-01", to: "2031-06-30" })],
    why: "nothing-produced-declared",
  },
])("a figure says so when $said", ({ facts, why }) => {
  expect(worked({ batches: [], facts }).figures["dry-yield"]).toMatchObject({ known: false, why });
});

test("with two methods each has its own figures, and what is owed belongs to the site alone", () => {
  const facts = [fact("schedule", { weekdays: [1, 2], perDay: 1, of: "batches" })];
  const batches = [batch("2031-06-02", 10, 3), batch("2031-06-03", 10, 4, { method: "microwave" })];
  expect(valued(worked({ batches, facts, method: "microwave" }).figures["dry-yield"])).toBe(0.4);
  expect(valued(worked({ batches, facts }).figures["dry-yield"])).toBe(0.35);
  expect(worked({ batches, facts }).figures["dry-yield"].restsOn.owed).toBe(9);
  expect(worked({ batches, facts, method: "microwave" }).figures["dry-yield"].restsOn).toMatchObject({
    here: 1,
    owed: null,
  });
});

test("a day emptied by a correction says nothing, and is no firing day", () => {
  const sums = daySums([batch("2031-06-02", 10, 3), batch("2031-06-03", 10, 3)], []);
  const emptied = sums.map((sum) =>
    sum.day === "2031-06-03" ? { ...sum, batches: 0, loads: 0, num: 0, den: 0 } : sum,
  );
  const plain = { site: SITE, period: daysOfMonth("2031-06"), method: null, facts: [], numbered: [], asKnownOn: NOW };
  const input = { ...plain, spans: [span("2031-06-02", "2031-06-03", 2)] };
  const without = sums.filter((sum) => sum.day !== "2031-06-03");
  expect(siteMonth({ ...input, sums: emptied })).toStrictEqual(siteMonth({ ...input, sums: without }));
});

test("sums, fuel and facts of another site change nothing", () => {
  const other = <T extends object>(rows: readonly T[]) => rows.map((row) => ({ ...row, site: 99 }));
  const batches = [batch("2031-06-02", 10, 3)];
  const own = { site: SITE, period: daysOfMonth("2031-06"), method: null, numbered: [], asKnownOn: NOW };
  const sums = daySums(batches, []);
  const spans = [span("2031-06-02", "2031-06-02", 1)];
  const schedule = [fact("schedule", { weekdays: [1], perDay: 1, of: "batches" })];
  expect(
    siteMonth({ ...own, sums: [...sums, ...other(sums)], spans: [...spans, ...other(spans)], facts: other(schedule) }),
  ).toStrictEqual(siteMonth({ ...own, sums, spans, facts: [] }));
});

test("the power of the fire is told only when every load of the windows has its minutes", () => {
  const spans = [span("2031-06-02", "2031-06-02", 1)];
  const timed = batch("2031-06-02", 10, 3, { minutes: 90, pan: "1" });
  expect(worked({ batches: [timed], spans }).fuel.firepowerKw).toBeCloseTo(47.3 / (1.5 * 3.6), 9);
  expect(worked({ batches: [timed, batch("2031-06-02", 10, 3, { pan: "2" })], spans }).fuel.firepowerKw).toBeNull();
});

const codes = (said: Said) => worked(said).checks.map((check) => check.code);
const gas = (kg: number) => [span("2031-06-02", "2031-06-02", kg)];

test.each([
  {
    code: "logged-on-closed-day",
    said: {
      batches: [batch("2031-06-02", 10, 3)],
      facts: [
        fact("closed", { reason: "rain", accepted: true }, { key: "2031-06-02", from: "2031-06-02", to: "2031-06-02" }),
      ],
    },
  },
  {
    code: "logged-while-not-open",
    said: { batches: [batch("2031-06-02", 10, 3)], facts: [fact("open", {}, { from: "2031-06-03" })] },
  },
  {
    code: "logged-though-nothing-produced",
    said: {
      batches: [batch("2031-06-02", 10, 3)],
      facts: [fact("nothing-produced", {}, { from: "2031-06-01", to: "2031-06-30" })],
    },
  },
  {
    code: "closed-claimed-late",
    said: {
      batches: [],
      facts: [
        fact("due", { dayOfMonth: 10 }),
        fact(
          "closed",
          { reason: "rain", accepted: false },
          { key: "2031-06-02", from: "2031-06-02", to: "2031-06-02", on: "2031-08-01" },
        ),
      ],
    },
  },
  {
    code: "more-here-than-owed",
    said: {
      batches: [batch("2031-06-02", 10, 3), batch("2031-06-03", 10, 3)],
      facts: [
        fact("schedule", { weekdays: [7], perDay: 1, of: "batches" }, { to: "2031-06-01" }),
        fact("schedule", { weekdays: [7], perDay: 1, of: "batches" }, { from: "2031-06-30" }),
        fact("open", {}, { from: "2031-06-01", to: "2031-06-01" }),
      ],
    },
  },
  {
    code: "yield-below-dry-matter",
    said: {
      batches: [batch("2031-06-02", 10, 2.9)],
      facts: [fact("dry-matter", { share: 0.3, sd: 0.03, measured: true })],
    },
  },
  { code: "fuel-below-what-water-needs", said: { batches: [batch("2031-06-02", 10, 3)], spans: gas(0.3) } },
  { code: "fuel-above-usual", said: { batches: [batch("2031-06-02", 10, 3)], spans: gas(3) } },
  { code: "firepower-unusual", said: { batches: [batch("2031-06-02", 10, 3, { minutes: 1 })], spans: gas(1) } },
  {
    code: "roasting-share-above-one",
    said: {
      batches: [batch("2031-06-02", 10, 3, { minutes: 90 })],
      facts: [fact("pans", { pans: 1 }), fact("hours", { perDay: 1 })],
    },
  },
  {
    code: "fuel-overlaps",
    said: {
      batches: [batch("2031-06-02", 10, 3)],
      spans: [...gas(1), span("2031-06-01", "2031-06-30", 13, { how: "bought" as const })],
    },
  },
  {
    code: "fuel-without-amount",
    said: {
      batches: [batch("2031-06-02", 10, 3)],
      spans: [span("2031-06-02", "2031-06-02", null, { how: "cylinder-changed" })],
    },
  },
  {
    code: "fuel-without-loads",
    said: { batches: [batch("2031-06-02", 10, 3)], spans: [span("2031-06-10", "2031-06-12", 2)] },
  },
] as const)("the check $code is raised by its own case", ({ code, said }) => {
  expect(codes(said)).toContain(code);
});

test("a plain month raises no check, nor does a month dried in the sun with little fuel", () => {
  const facts = [fact("dry-matter", { share: 0.28, sd: 0.03, measured: true })];
  expect(codes({ batches: [batch("2031-06-02", 10, 3, { minutes: 90 })], spans: gas(1), facts })).toEqual([]);
  expect(codes({ batches: [batch("2031-06-02", 10, 3, { method: "sun" })], spans: gas(0.1) })).toEqual([]);
});

const facts = [
  fact("schedule", { weekdays: [1, 2, 3, 4, 5], perDay: 2, of: "batches" }),
  fact("plausible", { highestFreshKg: 15, lowestYield: 0.2, highestYield: 0.4 }),
  fact("scale-step", { kg: 0.05 }, { key: "dried" }),
  fact("scale-step", { kg: 0.1 }, { key: "fresh" }),
  fact("dry-matter", { share: 0.3, sd: 0.02, measured: true }),
  fact("pans", { pans: 2 }),
  fact("hours", { perDay: 8 }),
];

/** A quarter of loads and cylinders from a seed, some without a dried weight or minutes. */
function quarter(seed: number): { batches: Batch[]; spans: FuelSpan[] } {
  const next = (a: number, b: number) => ((seed * 7919 + a * 104_729 + b * 1299) % 1000) / 1000;
  const batches = daysBetween("2031-04-01", "2031-06-30").flatMap((day, i) =>
    next(i, 0) < 0.3
      ? []
      : [0, 1].map((pan) => {
          const kg = 6 + 6 * next(i, pan + 1);
          const dried = next(i, pan + 3) < 0.1 ? null : kg * (0.28 + 0.08 * next(i, pan + 5));
          return batch(day, kg, dried, {
            pan: String(pan),
            minutes: next(i, pan + 7) < 0.1 ? null : 60 + Math.round(40 * next(i, pan + 9)),
          });
        }),
  );
  const starts = ["2031-04-01", "2031-04-17", "2031-05-09", "2031-05-27", "2031-06-20", "2031-07-01"];
  const spans = starts
    .slice(1)
    .map((day, i) => span(starts[i]!, plusDays(day, -1), 10 + 5 * next(i, 11), { low: 9, high: 16 }));
  return { batches, spans };
}

const whole = { from: "2031-04-01", to: "2031-06-30" };
const months = ["2031-04", "2031-05", "2031-06"].map(daysOfMonth);

test("three months add up to their quarter: masses, heat, CO2, and what was owed and here", () => {
  for (let seed = 1; seed <= 20; seed++) {
    const said = { ...quarter(seed), facts };
    const parts = months.map((month) => worked(said, month));
    const all = worked(said, whole);
    for (const measure of ["fresh", "dried", "driven-off", "heat", "fossil-co2"] as const) {
      const sum = parts.reduce((total, part) => total + valued(part.figures[measure]), 0);
      expect(sum, `${measure}, seed ${seed}`).toBeCloseTo(valued(all.figures[measure]), 8);
    }
    const owedOf = (part: typeof all) => part.completeness.owed.count ?? Number.NaN;
    expect(parts.reduce((total, part) => total + owedOf(part), 0)).toBe(owedOf(all));
    expect(parts.reduce((total, part) => total + part.completeness.here, 0)).toBe(all.completeness.here);
  }
});

test("month sums give the quarter's yield and its standard error as the days do", () => {
  const { batches } = quarter(3);
  const sums = monthSums(daySums(batches, [])).filter((sum) => sum.measure === "dry-yield");
  const add = (value: (sum: (typeof sums)[number]) => number) => sums.reduce((total, sum) => total + value(sum), 0);
  const found = ratioFromSums({
    clusters: add((sum) => sum.days),
    num: add((sum) => sum.num),
    den: add((sum) => sum.den),
    num2: add((sum) => sum.num2),
    den2: add((sum) => sum.den2),
    numDen: add((sum) => sum.numDen),
  });
  const figure = worked({ batches }, whole).figures["dry-yield"];
  if (!figure.known || !figure.interval || !found) throw new Error("unknown");
  expect(sums.map((sum) => sum.month)).toEqual(["2031-04", "2031-05", "2031-06"]);
  expect(found.ratio).toBeCloseTo(figure.value, 12);
  const days = add((sum) => sum.days);
  // Student's t at 0.975 lies between 1.98 and 2.01 for 50 to 90 degrees of freedom (any table)
  expect(days).toBeGreaterThan(50);
  const t = (figure.interval.high - figure.value) / found.se!;
  expect(t).toBeGreaterThan(1.98);
  expect(t).toBeLessThan(2.01);
});

test("month sums are the same bit for bit in whatever order days come", () => {
  const kg = fc.double({ min: 1e-9, max: 1e9, noNaN: true });
  fc.assert(
    fc.property(fc.array(kg, { minLength: 3, maxLength: 30 }), (masses) => {
      const sums = daySums(
        masses.map((fresh, i) => batch(plusDays("2031-06-01", i), fresh, fresh / 3)),
        [],
      );
      expect(monthSums([...sums].reverse())).toStrictEqual(monthSums(sums));
    }),
    { seed: 20310601, numRuns: 200 },
  );
});

test("a month sum is the sum of its days and of their squares", () => {
  const sums = daySums([batch("2031-06-02", 30, 11), batch("2031-06-01", 10, 3)], []);
  const june = monthSums([...sums].reverse()).find((sum) => sum.measure === "dry-yield");
  expect(june).toMatchObject({ days: 2, batches: 2, num: 14, den: 40, num2: 130, den2: 1000, numDen: 360 });
});

test("whatever order batches, spans and sums arrive in, every figure is the same bit for bit", () => {
  const { batches, spans } = quarter(5);
  const plain = worked({ batches, spans, facts }, months[2]!);
  fc.assert(
    fc.property(
      fc.shuffledSubarray(batches, { minLength: batches.length }),
      fc.shuffledSubarray(spans, { minLength: spans.length }),
      (shuffled, others) => {
        const sums = daySums(shuffled, facts).reverse();
        const input = {
          site: SITE,
          period: months[2]!,
          method: null,
          spans: others,
          facts,
          numbered: [],
          asKnownOn: NOW,
        };
        expect(siteMonth({ ...input, sums })).toStrictEqual(plain);
      },
    ),
    { seed: 20310630, numRuns: 50 },
  );
});

test("moving one batch from 31 May to 1 June moves its kilograms and nothing else", () => {
  const { batches } = quarter(7);
  const moved = batch("2031-05-31", 10, 3, { pan: "9" });
  const before = [daysOfMonth("2031-05"), daysOfMonth("2031-06")].map((month) =>
    worked({ batches: [...batches, moved] }, month),
  );
  const corrected = { ...moved, day: "2031-06-01" };
  const after = [daysOfMonth("2031-05"), daysOfMonth("2031-06")].map((month) =>
    worked({ batches: [...batches, corrected] }, month),
  );
  expect(valued(before[0]!.figures.fresh) - valued(after[0]!.figures.fresh)).toBeCloseTo(10, 9);
  expect(valued(after[1]!.figures.fresh) - valued(before[1]!.figures.fresh)).toBeCloseTo(10, 9);
});
