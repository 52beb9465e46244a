import { expect, test } from "vitest";
import { type DayState, dayCalendar } from "../../app/_charts/dayCalendar";
import { funnelChart } from "../../app/_charts/funnelChart";
import { heatAgainstFloor } from "../../app/_charts/heatAgainstFloor";
import { massParts } from "../../app/_charts/massParts";
import { sandAge } from "../../app/_charts/sandAge";
import { figure, marks, none, svgOf } from "./figures";

test("where the mass went adds up to what went in", () => {
  const chart = massParts("Where the mass went", { driedKg: 30, waterKg: 65, unexplainedKg: 5 });
  expect(chart.long).toContain("100.0 kg fresh in");
  expect(chart.table.rows.map(([, , share]) => share)).toEqual(["30.0 %", "65.0 %", "5.0 %"]);
  const svg = svgOf(chart.picture);
  expect(svg).toContain('x="30%" width="65%"');
  expect(svg).toContain('x="95%" width="5%"');
});

test("without a dry matter nothing is called unexplained", () => {
  const chart = massParts("x", { driedKg: 30, waterKg: 70, unexplainedKg: null });
  expect(chart.table.rows.map(([name]) => name)).toEqual(["dried out", "water driven off"]);
});

test("fuel below the floor is said to be missing from the record", () => {
  const loads = figure(4.2, null, "count");
  const line = (name: string, value: number) => ({
    name,
    intensity: figure(value, 0.2, "MJ/kg"),
    hollow: false,
    loadsPerFiringDay: loads,
  });
  const chart = heatAgainstFloor("Heat", [line("May", 6), line("June", 1.9)], 2.571);
  expect(chart.long).toContain("fuel is missing from the record: June");
  expect(marks(svgOf(chart.picture), "floor")).toBe(4);
  expect(chart.table.rows[0]).toEqual(["May", expect.stringContaining("6.00 MJ per kg"), "4.2 a day"]);
  const open = { ...line("July", 6), intensity: none("fuel-window-open", "MJ/kg") };
  expect(heatAgainstFloor("Heat", [open], 2.571).table.rows[0]?.[1]).toContain("still open");
});

test("each state of a day has a shape of its own, and the table counts them", () => {
  const states = new Map<string, DayState>([
    ["2031-05-01", "logged"],
    ["2031-05-02", "missing"],
    ["2031-05-03", "closed"],
    ["2031-05-04", "nothing-produced"],
    ["2031-05-05", "off"],
    ["2031-06-01", "missing"],
  ]);
  const chart = dayCalendar("Days", states);
  const svg = svgOf(chart.picture);
  expect(["filled", "open", "cross", "axis", "quietMark", "grid"].map((look) => marks(svg, look))).toEqual([
    1, 2, 2, 1, 1, 1,
  ]);
  expect(chart.table.rows).toEqual([
    ["May 2031", "1", "1", "1", "1", "2 May 2031"],
    ["June 2031", "0", "0", "0", "1", "1 Jun 2031"],
  ]);
  expect(svgOf(dayCalendar("Days", new Map()).picture)).toContain("svg");
});

test("sand climbs with each load, and days above what was declared are counted", () => {
  const days = [5, 6, 7].map((loads, i) => ({ day: `2031-05-0${i + 1}`, loads }));
  const chart = sandAge("Sand", "2031-05-01", "2031-05-31", [{ pan: "2", days }], 6);
  expect(chart.table.rows).toEqual([["2", "7", "3 May 2031", "1"]]);
  expect(marks(svgOf(chart.picture), "reach")).toBe(3);
  expect(sandAge("Sand", "2031-05-01", "2031-05-31", [{ pan: "2", days: [] }], null).table.rows[0]).toEqual([
    "2",
    "–",
    "–",
    "none declared",
  ]);
});

test("a funnel names who lies outside and writes the limits in its table", () => {
  const dot = (name: string, mass: number, value: number, outside = false) => ({
    name,
    mass,
    value,
    outside,
    inner: { low: 0.31, high: 0.35 },
    outer: { low: 0.3, high: 0.36 },
  });
  const chart = funnelChart("Dry yield", [dot("A", 100, 0.33), dot("B", 300, 0.4, true)], {
    target: 0.33,
    unit: "kg/kg",
    mass: "kg fresh",
  });
  expect(chart.long).toContain("Outside: B.");
  expect(chart.table.rows[1]).toEqual(["B", "300", "40.0 %", "31.0 to 35.0", "30.0 to 36.0"]);
});
