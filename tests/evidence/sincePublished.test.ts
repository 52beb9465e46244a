import { expect, test } from "vitest";
import { canonical } from "#server/evidence/canonical";
import { sincePublished } from "#server/evidence/sincePublished";
import { type Figure, known, unknown } from "#server/terms/figure";

const restsOn = { used: 4, here: 5, owed: 6, of: "batches" } as const;
const early = { ledgerSize: 9, time: "2031-04-11T09:00:00.000Z" };
const late = { ledgerSize: 12, time: "2031-04-21T09:00:00.000Z" };

function month(dryYield: number, asKnownOn = late, more: Record<string, Figure> = {}) {
  const figures = {
    fresh: known({ value: 40, unit: "kg", restsOn, asKnownOn }),
    "dry-yield": known({ value: dryYield, unit: "kg/kg", restsOn, asKnownOn }),
    ...more,
  };
  return { method: "sand-pan", figures };
}

test("a month known later and by a later edition, but alike, stands as published", () => {
  const now = month(0.31);
  const other = { ...now, figures: { ...now.figures, fresh: { ...now.figures.fresh, edition: "2032-01" } } };
  expect(sincePublished(canonical([month(0.31, early)]), [other])).toEqual([]);
});

test("a figure that differs is told with both, and no other", () => {
  const found = sincePublished(canonical([month(0.31, early)]), [month(0.3)]);
  expect(found).toMatchObject([
    { method: "sand-pan", measure: "dry-yield", published: { value: 0.31 }, now: { value: 0.3 } },
  ]);
});

test.each<{ said: string; now: Figure }>([
  {
    said: "what it rests on",
    now: known({ value: 40, unit: "kg", restsOn: { ...restsOn, used: 5 }, asKnownOn: late }),
  },
  {
    said: "its interval",
    now: known({ value: 40, unit: "kg", restsOn, interval: { low: 39, high: 41, level: 0.95 }, asKnownOn: late }),
  },
  { said: "that there is none now", now: unknown({ why: "no-fresh-weight", unit: "kg", restsOn, asKnownOn: late }) },
])("$said makes a difference too", ({ now }) => {
  const found = sincePublished(canonical([month(0.31, early)]), [month(0.31, late, { fresh: now })]);
  expect(found.map(({ measure }) => measure)).toEqual(["fresh"]);
});

test("a dryer that was not known then, or is not known now, differs in all its figures", () => {
  const sun = { ...month(0.3), method: "sun" };
  const added = sincePublished(canonical([month(0.31, early)]), [month(0.31), sun]);
  expect(added).toMatchObject([
    { method: "sun", measure: "fresh", published: null },
    { method: "sun", measure: "dry-yield", published: null },
  ]);
  const gone = sincePublished(canonical([month(0.31, early), sun]), [month(0.31)]);
  expect(gone.map(({ method, now }) => [method, now])).toEqual([
    ["sun", null],
    ["sun", null],
  ]);
});

test("what holds no figures was not published by us", () => {
  for (const frozen of ["{}", "[1]", '[{"method":null,"figures":{"fresh":{"known":true,"unit":"kg","restsOn":{}}}}]'])
    expect(() => sincePublished(frozen, [])).toThrow();
});
