import { expect, test } from "vitest";
import { daysOfMonth, monthsBetween } from "#server/terms/days";
import { timePanels } from "../../app/_charts/timePanels";
import { figure, marks, none, svgOf } from "./figures";

const months = monthsBetween("2031-01", "2031-06");
const values = [0.31, 0.32, null, 0.33, 0.34, 0.33];
const yields = {
  title: "Dry yield",
  points: months.map((month, i) => {
    const value = values[i] ?? null;
    return { ...daysOfMonth(month), figure: value === null ? none() : figure(value, 0.01), hollow: i === 3 };
  }),
};
const events = [{ day: "2031-04-12", text: "new sand" }];
const chart = timePanels("Old Jetty", "2031-01-01", "2031-06-30", [yields, { ...yields, title: "Again" }], events);

test("a month that is not known keeps its place, and no line crosses it", () => {
  const svg = svgOf(chart.picture);
  // six months, one unknown: lines January–February, April–May, May–June, in each of two panels
  expect(marks(svg, "line")).toBe(6);
  expect(marks(svg, "none")).toBe(2);
  expect(marks(svg, "dot")).toBe(8);
  expect(marks(svg, "hollow")).toBe(2);
  expect(svg.match(/>Mar</g)).toHaveLength(1);
});

test("days that do not follow each other are not joined either", () => {
  const day = (date: string) => ({ from: date, to: date, figure: figure(0.3), hollow: false });
  const points = [day("2031-01-06"), day("2031-01-07"), day("2031-01-09")];
  const svg = svgOf(timePanels("x", "2031-01-01", "2031-01-31", [{ title: "y", points }], []).picture);
  expect(marks(svg, "line")).toBe(1);
});

test("an event is one rule through all panels, numbered, and told in words", () => {
  const svg = svgOf(chart.picture);
  expect(marks(svg, "event")).toBe(1);
  expect(chart.long).toContain("1: 12 Apr 2031, new sand.");
});

test("the table says what the picture says, the reason of a gap too", () => {
  expect(chart.table.head).toEqual(["When", "Dry yield", "Again"]);
  expect(chart.table.rows).toHaveLength(7);
  expect(chart.table.rows[2]).toEqual(["March 2031", "none: nothing logged", "none: nothing logged"]);
  expect(chart.table.rows[0]?.[1]).toContain("31.0 %");
});

test("a panel in which nothing is known says so", () => {
  const points = yields.points.map((point) => ({ ...point, figure: none() }));
  const svg = svgOf(timePanels("x", "2031-01-01", "2031-06-30", [{ title: "y", points }], []).picture);
  expect(svg).toContain("nothing is known");
});

test("the same instant stands at the same place in every panel", () => {
  const centres = [...svgOf(chart.picture).matchAll(/cx="([^"]+)"/g)].map(([, x]) => x);
  expect(centres.slice(0, 5)).toEqual(centres.slice(5));
});
