import { expect, test } from "vitest";
import { lifeOf, within } from "#server/drift/reference";
import { seriesOf } from "#server/drift/series";
import { dayNumber } from "#server/terms/days";
import { workingDays } from "./streams";

test("without any word a stream has one reference", () => {
  const { references, left } = lifeOf([], []);
  expect(references).toEqual([{ from: null, to: null, begunBy: "first-day" }]);
  expect(left).toBeNull();
});

test("a declared and a found change begin the same reference", () => {
  const declared = lifeOf([{ from: "2031-02-03", what: "scale" }], []);
  const found = lifeOf([], [{ kind: "real-change", from: "2031-02-03" }]);
  const spans = (life: typeof declared) => life.references.map(({ from, to }) => [from, to]);
  expect(spans(found)).toEqual(spans(declared));
  expect(declared.references[1]!.begunBy).toBe("scale");
  expect(found.references[1]!.begunBy).toBe("real-change");
  const both = lifeOf([{ from: "2031-02-03", what: "scale" }], [{ kind: "real-change", from: "2031-02-03" }]);
  expect(both.references).toEqual(declared.references);
});

test("wrong records and passing causes are left out, no cause found changes nothing", () => {
  const { references, left } = lifeOf(
    [],
    [
      { kind: "data-error", days: ["2031-01-09"] },
      { kind: "temporary-cause", from: "2031-01-20", to: "2031-01-25" },
      { kind: "no-cause-found", on: "2031-01-30" },
    ],
  );
  expect(references).toHaveLength(1);
  const out = [
    "2031-01-08",
    "2031-01-09",
    "2031-01-10",
    "2031-01-19",
    "2031-01-20",
    "2031-01-25",
    "2031-01-26",
    "2031-01-30",
  ];
  expect(out.filter((day) => left!(dayNumber(day)))).toEqual(["2031-01-09", "2031-01-20", "2031-01-25"]);
});

test("the references of a stream hold each day once, but for those left out", () => {
  const { series } = seriesOf(workingDays(1, 80));
  const life = lifeOf(
    [{ from: "2031-02-03", what: "pan" }],
    [
      { kind: "real-change", from: "2031-03-01" },
      { kind: "data-error", days: ["2031-01-09"] },
    ],
  );
  const days = life.references.flatMap((reference) => Array.from(within(series, reference, life.left).day));
  expect(days).toEqual(Array.from(series.day).filter((day) => day !== dayNumber("2031-01-09")));
});
