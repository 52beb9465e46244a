import fc from "fast-check";
import { expect, test, vi } from "vitest";
import { lifeOf } from "#server/drift/reference";
import { scoreSeries } from "#server/drift/score";
import { type DayPoint, seriesOf } from "#server/drift/series";
import { type ProgrammeStream, type WatchedMonth, watchMonth } from "#server/drift/watchMonth";
import { type StreamName, WATCHED } from "#server/terms/signal";
import { workingDays } from "./streams";

vi.setConfig({ testTimeout: 60_000 }); // whole programmes, also on a machine that does other things

/** What must not matter, held over the whole programme: pooled values, limits, scores, signals, questions. */
interface Told {
  readonly name: StreamName;
  readonly points: readonly DayPoint[];
}

const MONTH = "2031-06";

/** Eight sites with two measures for half a year; two streams step, one has a day that is ten times too large. */
function programme(seed: number): Told[] {
  return Array.from({ length: 8 }, (_, i) => i + 1).flatMap((site) =>
    WATCHED.slice(0, 2).map((measure, m) => {
      const step = site <= 2 && m === 0 ? { at: 130, times: site === 1 ? 1.15 : 0.85 } : undefined;
      const points = workingDays(1000 * seed + 10 * site + m, 154, step);
      const wrong = site === 3 ? points.with(140, { ...points[140]!, numerator: 10 * points[140]!.numerator }) : points;
      return { name: { site, method: "sand-pan" as const, measure }, points: wrong };
    }),
  );
}

function watched(told: readonly Told[]): WatchedMonth {
  const streams = told.map(
    ({ name, points }): ProgrammeStream => ({ name, series: seriesOf(points).series, life: lifeOf([], []) }),
  );
  return watchMonth(streams, MONTH);
}

/** Scores, signals and questions by stream, in an order of names. */
function byName({ streams, signals, questions, limits, groups }: WatchedMonth) {
  const key = ({ site, measure }: StreamName) => `${measure} ${site}`;
  const sorted = <T extends StreamName>(all: readonly T[]) => [...all].sort((a, b) => (key(a) < key(b) ? -1 : 1));
  return {
    scores: new Map(streams.map(({ name, references }) => [key(name), references.map(({ scored }) => scored)])),
    signals: sorted(signals),
    questions: sorted(questions),
    limits,
    groups: [...groups].sort((a, b) => (a.measure < b.measure ? -1 : 1)),
  };
}

const anySeed = fc.integer({ min: 1, max: 10_000 });
const runs = { numRuns: 5, seed: 11 };

test("what is held here has signals and questions in it", () => {
  const { signals, questions } = watched(programme(1));
  expect(signals.map(({ site }) => site)).toEqual(expect.arrayContaining([1, 2]));
  expect(questions.map(({ site }) => site)).toContain(3);
});

test("grams in the place of kilograms change no score, no day and no share", () => {
  fc.assert(
    fc.property(anySeed, (seed) => {
      const told = programme(seed);
      const inGrams = told.map(({ name, points }) => ({
        name,
        points: points.map(({ day, numerator, denominator }) => {
          return { day, numerator: 1000 * numerator, denominator: 1000 * denominator };
        }),
      }));
      const [kg, grams] = [watched(told), watched(inGrams)];
      expect(grams.limits).toEqual(kg.limits);
      grams.streams.forEach(({ references }, i) => {
        references.forEach(({ scored }, j) => {
          const same = kg.streams[i]!.references[j]!.scored;
          expect(scored.state).toEqual(same.state);
          for (const [at, score] of scored.score.entries()) expect(score).toBeCloseTo(same.score[at]!, 7);
        });
      });
      const days = ({ signals }: WatchedMonth) =>
        signals.map(({ site, measure, raisedOn, sinceFrom, sinceTo, direction }) => {
          return { site, measure, raisedOn, sinceFrom, sinceTo, direction };
        });
      expect(days(grams)).toEqual(days(kg));
      grams.signals.forEach(({ change, per30Days }, i) => {
        expect(change).toBeCloseTo(kg.signals[i]!.change, 9);
        expect(per30Days / 1000).toBeCloseTo(kg.signals[i]!.per30Days, 7);
      });
    }),
    runs,
  );
});

test("the order of rows and of sites leaves no trace, to the last bit", () => {
  fc.assert(
    fc.property(anySeed, fc.infiniteStream(fc.nat()), (seed, chance) => {
      const mixed = <T>(all: readonly T[]): T[] =>
        all
          .map((one) => ({ one, at: chance.next().value ?? 0 }))
          .sort((a, b) => a.at - b.at)
          .map(({ one }) => one);
      const told = programme(seed);
      const shuffled = mixed(told.map(({ name, points }) => ({ name, points: mixed(points) })));
      expect(byName(watched(shuffled))).toEqual(byName(watched(told)));
    }),
    runs,
  );
});

test("a day's sums that come in parts are the day's sums", () => {
  fc.assert(
    fc.property(anySeed, (seed) => {
      const told = programme(seed);
      // halves add up to the last bit, so nothing may differ at all
      const inParts = told.map(({ name, points }) => ({
        name,
        points: points.flatMap((point) => {
          const half = { ...point, numerator: point.numerator / 2, denominator: point.denominator / 2 };
          return [half, half];
        }),
      }));
      expect(byName(watched(inParts))).toEqual(byName(watched(told)));
    }),
    runs,
  );
});

test("a site that never reports changes nothing for the others, wherever it stands among them", () => {
  fc.assert(
    fc.property(anySeed, fc.nat({ max: 16 }), (seed, place) => {
      const told = programme(seed);
      const silent: Told[] = WATCHED.slice(0, 2).map((measure) => {
        return { name: { site: 99, method: "sand-pan", measure }, points: [] };
      });
      const found = byName(watched([...told.slice(0, place), ...silent, ...told.slice(place)]));
      for (const { name } of silent) found.scores.delete(`${name.measure} ${name.site}`);
      expect(found).toEqual(byName(watched(told)));
    }),
    runs,
  );
});

test("a change declared, and the same change found and answered, leave one reference and one set of scores", () => {
  fc.assert(
    fc.property(anySeed, (seed) => {
      const streams = (found: boolean) =>
        programme(seed).map(({ name, points }): ProgrammeStream => {
          const from = points[130]!.day;
          const life = found ? lifeOf([], [{ kind: "real-change", from }]) : lifeOf([{ from, what: "scale" }], []);
          return { name, series: seriesOf(points).series, life: name.site === 1 ? life : lifeOf([], []) };
        });
      const [declared, found] = [false, true].map((one) => byName(watchMonth(streams(one), MONTH)));
      expect(found).toEqual(declared);
      expect(declared!.scores.get("dry-yield 1")).toHaveLength(2);
    }),
    runs,
  );
});

test("a tenfold typing error is a question, and delays the signal of a real change by a few days at most", () => {
  const delays: number[] = [];
  for (let seed = 1; seed <= 8; seed++) {
    const told = programme(seed);
    const wrong = told.map((one) =>
      one.name.site === 1
        ? { ...one, points: one.points.with(127, { ...one.points[127]!, numerator: one.points[127]!.numerator / 10 }) }
        : one,
    );
    const place = (watch: WatchedMonth) => {
      const first = watch.signals.find(({ site, measure }) => site === 1 && measure === "dry-yield");
      return told[0]!.points.findIndex(({ day }) => day === first?.raisedOn);
    };
    const [clean, spoilt] = [watched(told), watched(wrong)];
    expect(place(clean), `seed ${seed}`).toBeGreaterThanOrEqual(130);
    delays.push(place(spoilt) - place(clean));
  }
  expect(Math.max(...delays)).toBeLessThanOrEqual(5);
  expect(Math.min(...delays)).toBeGreaterThanOrEqual(-2); // pooled values hold the wrong day too
});

test("minutes per kg are the days of kg per pan-hour upside down: the same scores mirrored, nothing more to find", () => {
  for (let seed = 1; seed <= 5; seed++) {
    const points = workingDays(seed, 120, { at: 80, times: 1.1 });
    const perHour = seriesOf(
      points.map((point) => ({ ...point, numerator: point.numerator, denominator: point.denominator / 60 })),
    );
    const perKg = seriesOf(
      points.map(({ day, numerator, denominator }) => ({ day, numerator: denominator, denominator: numerator })),
    );
    const pooled = { omega: 0.6, rho: 0.4, d0: 8, s02: 0.0025, worth: 1 };
    const rules = { learn: 12, lambda: 0.1, clamp: 3, edge: 0.8, spikeAt: 5.2 };
    const [hour, kg] = [perHour, perKg].map(({ series }) => scoreSeries(series, pooled, rules));
    const apart = hour!.score.map((score, i) => Math.abs(score + kg!.score[i]!));
    expect(Math.max(...apart), `seed ${seed}`).toBeLessThan(0.25); // only the days' masses differ, by their yield
    expect(kg!.crossings.length > 0, `seed ${seed}`).toBe(hour!.crossings.length > 0);
  }
});
