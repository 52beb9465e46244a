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
  expect(readClock(written(text))).toMatchObject({ kind: "clock", minute });
});

test("a spreadsheet's time of day and date with time are read from the share of the day", () => {
  expect(readClock(stored(0.375, "time"))).toMatchObject({ minute: 540 });
  expect(readClock(stored(45823.75, "day"))).toMatchObject({ minute: 1080 });
});

test.each(["morning", "25:00", "8:75", "13 pm"])("“%s” is no time of day", (text) => {
  expect(readClock(written(text))).toEqual({ kind: "problem", puts: [] });
});

// How the language counts is common knowledge: "saa mbili" is two hours after dawn, eight in the morning.
test.each([
  ["saa mbili", 480],
  ["saa tatu asubuhi", 540],
  ["Saa tatu na nusu asubuhi", 570],
  ["saa nne kasoro robo", 585],
  ["saa 2:30 asubuhi", 510],
  ["saa 2 usiku", 1200],
  ["saa nane mchana", 840],
  ["saa kumi na mbili jioni", 1080],
  ["saa kumi na moja alfajiri", 300],
  ["saa sita usiku", 0],
])("“%s” counts from dawn: %s minutes after midnight", (text, minute) => {
  expect(readClock(written(text))).toEqual({ kind: "clock", minute, isOpen: false });
});

test.each([
  ["saa 2:30", ["08:30", "02:30"]],
  ["saa kumi na mbili", ["06:00", "18:00"]],
  ["saa nane asubuhi", ["14:00", "02:00"]],
])("“%s” may be several times, which are offered", (text, puts) => {
  expect(readClock(written(text))).toEqual({ kind: "problem", puts });
});

test("an empty cell has no time", () => {
  expect(readClock(written(""))).toEqual({ kind: "absent" });
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
