import { expect, test } from "vitest";
import { minutesBetween, readClock } from "#server/intake/values/clocks";
import { stored, written } from "./cells";

test.each<[string, number]>([
  ["8h30", 510],
  ["8H", 480],
  ["8.30", 510],
  ["08:30", 510],
  ["0830", 510],
  ["8:30 am", 510],
  ["8:30 AM", 510],
  ["8:30 a.m.", 510],
  ["2 pm", 840],
  ["12 am", 0],
  ["12:15 pm", 735],
  ["14h", 840],
  ["08:30:00", 510],
  ["03/06/2025 07:30", 450],
])("“%s” is %s minutes after midnight", (text, minute) => {
  expect(readClock(written(text))).toBe(minute);
});

test("a spreadsheet's time of day and date with time are read from the share of the day", () => {
  expect(readClock(stored(0.375, "time"))).toBe(540);
  expect(readClock(stored(45823.75, "day"))).toBe(1080);
});

test.each(["morning", "25:00", "8:75", "13 pm"])("“%s” is no time of day", (text) => {
  expect(readClock(written(text))).toBeUndefined();
});

test("an empty cell has no time", () => {
  expect(readClock(written(""))).toBeNull();
});

test("23:20 to 00:40 is 80 minutes over midnight", () => {
  expect(minutesBetween(23 * 60 + 20, 40)).toEqual({ minutes: 80, overMidnight: true });
});

test("an end before the start that would last longer than eight hours is not taken", () => {
  expect(minutesBetween(16 * 60, 0)).toEqual({ minutes: 480, overMidnight: true });
  expect(minutesBetween(15 * 60 + 59, 0)).toBeNull();
  expect(minutesBetween(600, 540)).toBeNull();
  expect(minutesBetween(600, 600)).toBeNull();
});

test("08:00–09:30 and 08:45–10:00 are 165 pan-minutes", () => {
  const minutes = [minutesBetween(480, 570), minutesBetween(525, 600)].map((found) => found?.minutes ?? 0);
  expect(minutes.reduce((sum, one) => sum + one, 0)).toBe(165);
});
