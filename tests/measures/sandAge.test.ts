import { expect, test } from "vitest";
import { type SandRow, sandAge } from "#server/measures/sandAge";
import { seeded } from "../statistics/seeded";

const row = (day: string, said: Partial<SandRow> = {}): SandRow => ({
  pan: "1",
  day,
  startMinute: null,
  loads: 1,
  sandCycle: null,
  newSand: null,
  ...said,
});

test("counts loads since new sand, worked by hand: before it unknown, on its day 1, then 1 + 3 and 4 + 2", () => {
  const rows = [
    row("2031-05-01", { loads: 2 }),
    row("2031-05-02", { newSand: true }),
    row("2031-05-03", { loads: 3 }),
    row("2031-05-06", { loads: 2 }),
  ];
  expect(sandAge(rows)).toEqual([
    {
      pan: "1",
      newOn: ["2031-05-02"],
      days: [
        { day: "2031-05-01", loads: null },
        { day: "2031-05-02", loads: 1 },
        { day: "2031-05-03", loads: 4 },
        { day: "2031-05-06", loads: 6 },
      ],
    },
  ]);
});

test.each([
  {
    said: "where no new sand was ever logged",
    rows: [row("2031-05-01", { newSand: false }), row("2031-05-02")],
    last: null,
  },
  { said: "where nothing is logged", rows: [], last: undefined },
])("is unknown $said", ({ rows, last }) => {
  expect(sandAge(rows)[0]?.days.at(-1)?.loads).toBe(last);
});

test.each([
  { said: "at noon starts again there", start: 720, others: [480, 900], loads: 2 },
  {
    said: "at a time not logged comes first, so that no age is told too low",
    start: null,
    others: [480, 900],
    loads: 3,
  },
  { said: "comes before loads whose start is not logged", start: 720, others: [null, null], loads: 3 },
])("new sand $said", ({ start, others, loads }) => {
  const day = "2031-05-02";
  const rows = [
    row(day, { startMinute: start, newSand: true }),
    ...others.map((startMinute) => row(day, { startMinute })),
  ];
  expect(sandAge([row("2031-05-01", { newSand: true }), ...rows])[0]?.days).toEqual([
    { day: "2031-05-01", loads: 1 },
    { day, loads },
  ]);
});

test("goes on from the site's own count, worked by hand: the 7th load, then 7 + 2; the 1st is new sand", () => {
  const counted = [
    row("2031-05-01", { sandCycle: 7 }),
    row("2031-05-02", { loads: 2 }),
    row("2031-05-03", { sandCycle: 1 }),
  ];
  const [told] = sandAge(counted);
  expect(told?.days.map(({ loads }) => loads)).toEqual([7, 9, 1]);
  expect(told?.newOn).toEqual(["2031-05-03"]);
});

test("pans age each by itself, and in any order of rows the same", () => {
  for (let seed = 1; seed <= 100; seed++) {
    const chance = seeded(seed);
    const rows = Array.from({ length: 30 }, () =>
      row(`2031-05-${String(1 + Math.floor(9 * chance.uniform())).padStart(2, "0")}`, {
        pan: String(1 + Math.floor(3 * chance.uniform())),
        startMinute: chance.uniform() < 0.3 ? null : Math.floor(4 * chance.uniform()) * 60,
        loads: 1 + Math.floor(3 * chance.uniform()),
        sandCycle: chance.uniform() < 0.2 ? 1 + Math.floor(5 * chance.uniform()) : null,
        newSand: chance.uniform() < 0.2,
      }),
    );
    const told = sandAge(rows);
    expect(sandAge([...rows].reverse()), `seed ${seed}`).toEqual(told);
    expect(sandAge(rows.filter(({ pan }) => pan === "2")), `seed ${seed}`).toEqual(
      told.filter(({ pan }) => pan === "2"),
    );
    for (const { days } of told) for (const { loads } of days) expect(loads === null || loads >= 1).toBe(true);
  }
});
