import { describe, expect, test } from "vitest";
import { dayNumber, dayOf, daysBetween } from "#server/terms/days";

describe("days of the calendar", () => {
  test("are counted as the language's own calendar counts them, over 400 years", () => {
    for (let number = dayNumber("1790-01-01"); number < dayNumber("2190-01-01"); number += 13)
      expect(dayNumber(dayOf(number))).toBe(number);
    expect(dayNumber("1970-01-01")).toBe(0);
    expect(dayNumber("2000-03-01")).toBe(Date.UTC(2000, 2, 1) / 86_400_000);
    expect(dayNumber("0001-01-01")).toBe(new Date("0001-01-01T00:00:00Z").getTime() / 86_400_000);
  });

  test("follow one another over the ends of months and leap years", () => {
    const days = daysBetween("2095-12-01", "2104-03-31");
    expect(days).toEqual(days.map((_, i) => dayOf(dayNumber("2095-12-01") + i)));
    expect(days.filter((day) => day.endsWith("02-29"))).toEqual(["2096-02-29", "2104-02-29"]);
    expect(daysBetween("2031-05-02", "2031-05-01")).toEqual([]);
  });

  test.each(["2031-02-29", "2100-02-29", "2031-04-31", "2031-13-01", "2031-00-10", "2031-01-00"])(
    "%s is not in the calendar",
    (day) => {
      expect(() => dayNumber(day)).toThrow(`${day} is not in the calendar`);
    },
  );
});
