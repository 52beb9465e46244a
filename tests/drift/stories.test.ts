import { expect, test } from "vitest";
import { firstQuestions } from "#server/drift/firstQuestions";
import { storiesOf } from "#server/drift/stories";
import type { Signal } from "#server/terms/signal";

function signal(
  site: number | null,
  measure: Signal["measure"],
  raisedOn: string,
  span: [string, string] | null,
  more: Partial<Signal> = {},
): Signal {
  const [sinceFrom, sinceTo] = span ?? ["2031-01-02", raisedOn];
  return {
    ...{ site, method: "sand-pan", measure, raisedOn, chart: "drift", direction: "up", level: 0.95, confirms: null },
    ...{ since: span === null ? null : sinceFrom, sinceFrom, sinceTo, dateDetermined: span !== null },
    ...{ change: 0.1, low: 0.05, high: 0.15, before: 0.3, after: 0.33, per30Days: 9, daysSince: 12 },
    ...more,
  };
}

test("streams of one site whose dates overlap are one story; another site's is another", () => {
  const stories = storiesOf([
    signal(2, "dry-yield", "2031-03-12", ["2031-03-01", "2031-03-04"]),
    signal(1, "dry-yield", "2031-03-10", ["2031-02-20", "2031-03-02"]),
    signal(1, "fuel-intensity", "2031-03-15", ["2031-03-01", "2031-03-05"], { direction: "down" }),
    signal(1, "throughput", "2031-06-15", ["2031-06-01", "2031-06-05"]),
  ]);
  expect(stories.map(({ site, signals }) => [site, signals.map(({ measure }) => measure)])).toEqual([
    [1, ["dry-yield", "fuel-intensity"]],
    [2, ["dry-yield"]],
    [1, ["throughput"]],
  ]);
  expect(stories[0]).toMatchObject({ firstRaisedOn: "2031-03-10", partOf: null });
});

test("a signal that bridges two others makes one story of the three", () => {
  const three = [
    signal(1, "dry-yield", "2031-03-10", ["2031-03-01", "2031-03-02"]),
    signal(1, "throughput", "2031-03-20", ["2031-03-08", "2031-03-12"]),
    signal(1, "minutes-per-kg", "2031-03-21", ["2031-03-02", "2031-03-09"]),
  ];
  expect(storiesOf(three)).toHaveLength(1);
  expect(storiesOf([...three].reverse())).toEqual(storiesOf(three));
});

test("an open date joins only what happened shortly before it was said", () => {
  const open = signal(1, "dry-yield", "2031-06-20", null);
  expect(storiesOf([open, signal(1, "throughput", "2031-02-20", ["2031-02-10", "2031-02-12"])])).toHaveLength(2);
  expect(storiesOf([open, signal(1, "throughput", "2031-06-22", ["2031-06-10", "2031-06-12"])])).toHaveLength(1);
});

test("what all sites share is told once, and a site's own part is not swallowed", () => {
  const common = signal(null, "dry-yield", "2031-03-16", ["2031-03-01", "2031-03-08"]);
  const stories = storiesOf([
    common,
    signal(1, "dry-yield", "2031-03-12", ["2031-03-03", "2031-03-04"]),
    signal(2, "dry-yield", "2031-03-12", ["2031-03-03", "2031-03-04"], { direction: "down" }),
    signal(3, "dry-yield", "2031-03-12", ["2031-03-03", "2031-03-04"]),
    signal(3, "fuel-intensity", "2031-03-12", ["2031-03-03", "2031-03-04"]),
  ]);
  expect(stories.map(({ site, partOf }) => [site, partOf === common])).toEqual([
    [1, true],
    [2, false],
    [3, false],
    [null, false],
  ]);
});

// common practice of the trade: what to ask first, by symptom
test("the first questions follow from measure, direction and pace; a changed log comes first", () => {
  const sudden = { sinceFrom: "2031-03-03", sinceTo: "2031-03-05" };
  const slow = { sinceFrom: "2031-02-03", sinceTo: "2031-03-05" };
  expect(firstQuestions("dry-yield", { direction: "up", ...sudden })[0]).toBe("is-the-bowl-or-sand-in-the-weight");
  expect(firstQuestions("dry-yield", { direction: "up", ...slow })[0]).toBe("is-it-taken-off-before-it-is-dry");
  expect(firstQuestions("fuel-intensity", { direction: "up", ...slow })[0]).toBe("does-the-hose-or-regulator-leak");
  const noticed = [{ day: "2031-03-01", what: "unit" }] as const;
  expect(firstQuestions("dry-yield", { direction: "up", ...sudden }, noticed)).toEqual([
    "did-the-unit-change",
    "is-the-bowl-or-sand-in-the-weight",
    "is-it-taken-off-before-it-is-dry",
  ]);
  const longAgo = [{ day: "2031-01-15", what: "unit" }] as const;
  expect(firstQuestions("dry-yield", { direction: "up", ...sudden }, longAgo)).not.toContain("did-the-unit-change");
});

test("a site that was recorded as part of what other dryers did is part of it; one with a movement of its own dryer is not", () => {
  const span: [string, string] = ["2031-03-01", "2031-03-05"];
  const common = signal(null, "dry-yield", "2031-03-16", span);
  const lone = signal(1, "dry-yield", "2031-03-12", span, { method: "sun" });
  const partOf = (...signals: Parameters<typeof storiesOf>[0]) =>
    storiesOf(signals).find(({ site }) => site === 1)?.partOf;
  expect(partOf(common, { ...lone, together: true })).toMatchObject({ site: null, method: "sand-pan" });
  expect(partOf(common, { ...lone, together: false })).toBeNull();
  const down = signal(null, "dry-yield", "2031-03-16", span, { method: "sun", direction: "down" });
  expect(partOf(common, down, { ...lone, together: true })).toBeNull();
});
