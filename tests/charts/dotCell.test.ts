import { expect, test } from "vitest";
import { columnScale } from "../../app/_charts/columnScale";
import { dotCell } from "../../app/_charts/dotCell";
import { ticksOn } from "../../app/_charts/ticks";
import { figure, marks, none, svgOf } from "./figures";

const scale = { low: 0.2, high: 0.4 };
const plain = { hollow: false, scale, band: null, peers: [], floor: null, target: null };

test("a dot stands where its value is on the column's scale, with its interval", () => {
  const svg = svgOf(dotCell({ ...plain, figure: figure(0.3, 0.05) }, "Dry yield 30 %"));
  expect(svg).toContain('cx="50%"');
  expect(svg).toContain('x1="25%" x2="75%"');
  expect(svg).toContain('aria-label="Dry yield 30 %"');
  expect([marks(svg, "dot"), marks(svg, "hollow"), marks(svg, "cap")]).toEqual([1, 0, 2]);
});

test("a figure that rests on little is hollow; one that is not known has no dot, and keeps its track", () => {
  const hollow = svgOf(dotCell({ ...plain, hollow: true, figure: figure(0.3) }, "x"));
  expect([marks(hollow, "dot"), marks(hollow, "hollow"), marks(hollow, "reach")]).toEqual([0, 1, 0]);
  const gone = svgOf(dotCell({ ...plain, figure: none() }, "x"));
  expect([marks(gone, "dot"), marks(gone, "hollow"), marks(gone, "track")]).toEqual([0, 0, 1]);
});

test("an interval that runs off the scale has no cap at that end", () => {
  const svg = svgOf(dotCell({ ...plain, hollow: true, figure: figure(0.3, 0.2) }, "x"));
  expect(svg).toContain('x1="0%" x2="100%"');
  expect(marks(svg, "cap")).toBe(0);
});

test("a band takes the place of single peers; floor and target have shapes of their own", () => {
  const banded = svgOf(
    dotCell(
      { ...plain, figure: figure(0.3), band: { low: 0.28, high: 0.32 }, peers: [0.28, 0.3], floor: 0.22, target: 0.35 },
      "x",
    ),
  );
  expect([marks(banded, "band"), marks(banded, "peer"), marks(banded, "floor"), marks(banded, "target")]).toEqual([
    1, 0, 2, 1,
  ]);
  const few = svgOf(dotCell({ ...plain, figure: figure(0.3), peers: [0.28, 0.31] }, "x"));
  expect([marks(few, "band"), marks(few, "peer")]).toEqual([0, 2]);
});

test("words of a label are escaped", () => {
  expect(svgOf(dotCell({ ...plain, figure: none() }, '<b "x">'))).not.toContain("<b");
});

test("the column's scale holds every dot and mark, and no interval that rests on little", () => {
  const held = [
    { figure: figure(0.3, 0.02), hollow: false },
    { figure: figure(0.34, 0.3), hollow: true },
    { figure: none(), hollow: false },
  ];
  const found = columnScale(held, [0.25])!;
  expect(found.low).toBeCloseTo(0.25 - 0.06 * 0.09, 9);
  expect(found.high).toBeCloseTo(0.34 + 0.06 * 0.09, 9);
  expect(columnScale([{ figure: none(), hollow: false }], [0.25])).toBeNull();
});

test("ticks are round numbers inside the scale", () => {
  expect(ticksOn({ low: 0.287, high: 0.345 }, 3)).toEqual([0.3, 0.32, 0.34]);
  expect(ticksOn({ low: 5, high: 5 }, 3)).toEqual([5]);
  for (let n = 1; n < 400; n++) {
    const given = { low: n / 7 - 20, high: n / 7 - 20 + (n * n) / 300 };
    const ticks = ticksOn(given, 4);
    expect(ticks.length, `${n}`).toBeLessThanOrEqual(7);
    for (const tick of ticks) {
      expect(tick, `${n}`).toBeGreaterThanOrEqual(given.low - 1e-6);
      expect(tick, `${n}`).toBeLessThanOrEqual(given.high + 1e-6);
    }
  }
});
