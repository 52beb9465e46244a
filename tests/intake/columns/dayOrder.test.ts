import { expect, test } from "vitest";
import { OrderShown } from "#server/intake/columns/dayOrder";
import { dayReader } from "#server/intake/rows/dayCells";
import { readDay } from "#server/intake/values/days";
import type { Hints } from "#server/terms/row";
import { written } from "../values/cells";

/** The days of a file of dates, or the reasons why there are none. */
function read(dates: readonly string[], hints: Hints): string[] {
  const shown = new OrderShown(hints);
  for (const date of dates) shown.add(readDay(written(date)));
  const reader = dayReader(shown.found(), hints);
  return dates.map((date) => {
    const found = reader(written(date));
    if (found.kind === "day") return found.day;
    return found.kind === "problem" ? [found.code, ...found.puts].join(" ") : found.kind;
  });
}

test.each<{ said: string; dates: string[]; hints: Hints; days: string[] }>([
  {
    said: "03/06/2025 in a log of June is 3 June",
    dates: ["03/06/2025"],
    hints: { period: "2025-06" },
    days: ["2025-06-03"],
  },
  {
    said: "03/06/2025 in a log of March is 6 March",
    dates: ["03/06/2025"],
    hints: { period: "2025-03" },
    days: ["2025-03-06"],
  },
  { said: "06/06/2025 is 6 June either way", dates: ["06/06/2025"], hints: {}, days: ["2025-06-06"] },
  {
    said: "one date above the twelfth decides for the file",
    dates: ["03/06/2025", "14/06/2025"],
    hints: {},
    days: ["2025-06-03", "2025-06-14"],
  },
  {
    said: "the other way round as well",
    dates: ["6/3/2025", "6/14/2025"],
    hints: {},
    days: ["2025-06-03", "2025-06-14"],
  },
  {
    said: "the month of the log decides before what the site declared",
    dates: ["06/03/2025", "06/05/2025"],
    hints: { period: "2025-06", dayOrder: "dmy" },
    days: ["2025-06-03", "2025-06-05"],
  },
  {
    said: "what the site declared decides when nothing else does",
    dates: ["03/06/2025"],
    hints: { dayOrder: "mdy" },
    days: ["2025-03-06"],
  },
  {
    said: "when nothing decides, both days are offered",
    dates: ["03/06/2025"],
    hints: {},
    days: ["day-order-unclear 2025-06-03 2025-03-06"],
  },
  {
    said: "an answer decides in any case",
    dates: ["03/06/2025"],
    hints: { period: "2025-06", answers: { dayOrder: "mdy" } },
    days: ["day-outside-period 2025-03-06"],
  },
  {
    said: "cells that prove both orders leave the others open",
    dates: ["14/06/2025", "06/14/2025", "03/06/2025", "05/05/2025"],
    hints: {},
    days: ["2025-06-14", "2025-06-14", "day-order-unclear 2025-06-03 2025-03-06", "2025-05-05"],
  },
  {
    said: "a date without a year takes that of the log, across the turn of the year too",
    dates: ["3/1", "31/12", "3 janvier", "3"],
    hints: { period: "2031-01" },
    days: ["2031-01-03", "2030-12-31", "2031-01-03", "2031-01-03"],
  },
  {
    said: "without the month of the log a date without a year is none",
    dates: ["14/6", "14 June", "14"],
    hints: {},
    days: ["day-not-a-date", "day-not-a-date", "day-not-a-date"],
  },
  {
    said: "a day far from the month is held, with the log's year and itself as choices",
    dates: ["2024-06-14", "2025-07-07", "2025-07-08"],
    hints: { period: "2025-06" },
    days: ["day-outside-period 2025-06-14 2024-06-14", "2025-07-07", "day-outside-period 2025-07-08"],
  },
  {
    said: "a day after the log arrived is held",
    dates: ["2031-06-02", "2031-06-05"],
    hints: { lastDay: "2031-06-02" },
    days: ["2031-06-02", "day-outside-period"],
  },
  {
    said: "a year of the Buddhist era is held with the common year",
    dates: ["2569-03-15"],
    hints: {},
    days: ["day-outside-period 2026-03-15"],
  },
  {
    said: "two-digit years first when a person says so",
    dates: ["31-06-03"],
    hints: { answers: { dayOrder: "ymd" } },
    days: ["2031-06-03"],
  },
])("$said", ({ dates, hints, days }) => {
  expect(read(dates, hints)).toEqual(days);
});
