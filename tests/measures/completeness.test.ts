import { expect, test } from "vitest";
import { completeness } from "#server/measures/completeness";
import { daySums } from "#server/measures/daySums";
import { fieldCompleteness } from "#server/measures/fieldCompleteness";
import type { Numbered } from "#server/measures/numberedSeries";
import { owed } from "#server/measures/owed";
import { byDay } from "#server/measures/period";
import type { Batch } from "#server/terms/batch";
import { daysOfMonth } from "#server/terms/days";
import type { Fact } from "#server/terms/facts";
import { batch, fact, NOW } from "./invented";

/** Two batches every Monday to Saturday: June 2031 has 25 such days, so 50 batches. */
const schedule = fact("schedule", { weekdays: [1, 2, 3, 4, 5, 6], perDay: 2, of: "batches" });
const due = fact("due", { dayOfMonth: 10 });
const june = daysOfMonth("2031-06");

function record(batches: readonly Batch[], facts: readonly Fact[], numbered: readonly Numbered[] = [], period = june) {
  const sums = daySums(batches, facts);
  const logged = byDay(sums, "here").map((day) => day.day);
  return completeness(sums, owed(period, facts, numbered, logged), new Set(), NOW);
}

const two = (day: string) => [batch(day, 10, 3, { pan: "1" }), batch(day, 10, 3, { pan: "2" })];

test("owed, here, in time, usable: each step is a count of what was owed", () => {
  const late = batch("2031-06-04", 10, 3, { inTime: false });
  const half = batch("2031-06-05", 10, null);
  const found = record([...two("2031-06-02"), late, half], [schedule, due]);
  expect(found).toMatchObject({ here: 4, inTime: 3, missing: 46, excess: 0, usable: { fresh: 4, "dry-yield": 3 } });
  expect(found.owed).toMatchObject({ count: 50, of: "batches", by: "schedule", why: null });
  expect(found.hereShare).toMatchObject({ known: true, value: 4 / 50, restsOn: { used: 4, here: 4, owed: 50 } });
  expect(found.inTimeShare).toMatchObject({ value: 3 / 50 });
  expect(found.usableShares["dry-yield"]).toMatchObject({ value: 3 / 50 });
});

test("what was owed is never what came: without a declaration shares are unknown and counts still stand", () => {
  const found = record(two("2031-06-02"), []);
  expect(found).toMatchObject({ here: 2, missing: null, excess: null, owed: { count: null, by: null } });
  expect(found.hereShare).toMatchObject({ known: false, why: "owed-not-declared", restsOn: { owed: null } });
});

test("a month without a file and without a word is missing as a whole, or unknown where nothing was declared", () => {
  expect(record([], [schedule])).toMatchObject({ missing: 50, reported: false, hereShare: { value: 0 } });
  expect(record([], [])).toMatchObject({ missing: null, reported: false, hereShare: { why: "owed-not-declared" } });
});

test("a site not yet open, or closed for good, has no score and is not counted as silent", () => {
  const later = record([], [schedule, fact("open", {}, { from: "2031-07-01" })]);
  expect(later).toMatchObject({ reported: null, hereShare: { known: false, why: "not-open" } });
  const gone = record([], [schedule, fact("open", {}, { to: "2031-05-31" })]);
  expect(gone).toMatchObject({ reported: null, usableShares: { fuel: { why: "not-open" } } });
});

test("a site that opens in mid-month owes from its first day", () => {
  const found = record([], [schedule, fact("open", {}, { from: "2031-06-16" })]);
  expect(found.owed).toMatchObject({ count: 26 }); // 16 to 30 June: 13 days from Monday to Saturday
  expect(found.owed.days.open[0]).toBe("2031-06-16");
});

const closed = (on: string, accepted = false, at = 2) =>
  fact("closed", { reason: "holiday", accepted }, { key: "2031-06-09", from: "2031-06-09", to: "2031-06-10", on, at });

test.each([
  { said: "declared by the due day leave what is owed", facts: [closed("2031-07-10")], count: 46, claimed: 0 },
  { said: "declared late stay owed and show as claimed", facts: [closed("2031-07-11")], count: 50, claimed: 2 },
  { said: "declared late and accepted leave it", facts: [closed("2031-07-20", true)], count: 46, claimed: 0 },
  {
    said: "declared in time keep their place when the reason is corrected late",
    facts: [closed("2031-06-01"), closed("2031-07-20", false, 3)],
    count: 46,
    claimed: 0,
  },
  {
    said: "taken back are owed again",
    facts: [closed("2031-06-01"), { ...closed("2031-06-05", false, 3), value: null }],
    count: 50,
    claimed: 0,
  },
  {
    said: "taken back in time and claimed again late show as claimed",
    facts: [{ ...closed("2031-06-05"), value: null }, closed("2031-07-20", false, 3)],
    count: 50,
    claimed: 2,
  },
])("closed days $said", ({ facts, count, claimed }) => {
  const found = record([], [schedule, due, ...facts]);
  expect(found.owed.count).toBe(count);
  expect(found.owed.days.claimed).toHaveLength(claimed);
});

test("where no due day is declared no closed day is late", () => {
  expect(record([], [schedule, closed("2032-01-01")]).owed.count).toBe(46);
});

test("a batch on a closed day is here, and what is owed stays as it was", () => {
  const found = record([...two("2031-06-09"), ...two("2031-06-11")], [schedule, due, closed("2031-06-01")]);
  expect(found).toMatchObject({ here: 4, missing: 42, owed: { count: 46 } });
});

const nothing = fact("nothing-produced", {}, { from: "2031-06-01", to: "2031-06-30" });

test("a month filed as nothing produced is reported, owes nothing and has words instead of a share", () => {
  const found = record([], [schedule, nothing]);
  expect(found).toMatchObject({ reported: true, missing: 0, owed: { count: 0 } });
  expect(found.usableShares["dry-yield"]).toMatchObject({ known: false, why: "nothing-produced-declared" });
});

test("a month filed as nothing produced in which loads were logged owes like any other", () => {
  const found = record(two("2031-06-02"), [schedule, nothing]);
  expect(found).toMatchObject({ here: 2, missing: 48, owed: { count: 50 } });
});

test("a month closed on every day owes nothing, in words", () => {
  const whole = fact(
    "closed",
    { reason: "repair", accepted: true },
    { key: "2031-06-01", from: "2031-06-01", to: "2031-06-30" },
  );
  expect(record([], [schedule, whole]).hereShare).toMatchObject({ known: false, why: "nothing-owed" });
});

test("more than was owed is shown apart and never lifts a share above one", () => {
  const day = fact("schedule", { weekdays: [1], perDay: 1, of: "batches" }); // five Mondays
  const found = record(
    ["02", "03", "04"].flatMap((date) => two(`2031-06-${date}`)),
    [day],
  );
  expect(found).toMatchObject({
    here: 6,
    excess: 1,
    missing: 0,
    hereShare: { value: 1, restsOn: { used: 6, owed: 5 } },
  });
});

test("a batch that came two months late belongs to its month, and not to those in time", () => {
  const found = record([batch("2031-06-02", 10, 3, { inTime: false })], [schedule]);
  expect(found).toMatchObject({ here: 1, inTime: 0, hereShare: { value: 1 / 50 }, inTimeShare: { value: 0 } });
});

test("a schedule edited afterwards leaves the past as it was known then", () => {
  const edited = fact("schedule", { weekdays: [1], perDay: 1, of: "batches" }, { at: 9 });
  expect(record([], [schedule, edited]).owed.count).toBe(5);
  expect(record([], [schedule]).owed.count).toBe(50);
});

test("a schedule that holds only from mid-month leaves the month undeclared rather than half owed", () => {
  const half = fact("schedule", { weekdays: [1], perDay: 1, of: "batches" }, { from: "2031-06-15" });
  expect(record([], [half]).owed).toMatchObject({ count: null, why: "owed-not-declared" });
});

test("loads are counted in loads, and a line a day in days", () => {
  const tally = batch("2031-06-02", 18, 5.9, { grain: "site-day", loads: 18 });
  const loads = fact("schedule", { weekdays: [1], perDay: 18, of: "loads" });
  expect(record([tally], [loads])).toMatchObject({ here: 18, owed: { count: 90, of: "loads", loadsEach: 1 } });
  const days = fact("schedule", { weekdays: [1], perDay: 18, of: "days" });
  expect(record([tally], [days])).toMatchObject({ here: 1, owed: { count: 5, of: "days", loadsEach: 18 } });
});

test("a quarter that changes from loads to days is counted in days", () => {
  const loads = fact("schedule", { weekdays: [1], perDay: 18, of: "loads" });
  const days = fact("schedule", { weekdays: [1], perDay: 20, of: "days" }, { from: "2031-06-15", at: 2 });
  expect(record([], [loads, days]).owed).toMatchObject({ of: "days", count: 5, loadsEach: 20 });
});

const unbroken = fact("numbering", { unique: "site", unbroken: true });
const numbers = (...list: readonly (readonly [string, string])[]) => list.map(([number, day]) => ({ number, day }));

test("an unbroken series of numbers says what was owed, and names the gaps", () => {
  const series = numbers(
    ["B-040", "2031-05-30"],
    ["B-041", "2031-06-02"],
    ["B-042", "2031-06-03"],
    ["B-045", "2031-06-05"],
  );
  const found = record([], [schedule, unbroken], series);
  expect(found.owed).toMatchObject({ count: 5, by: "number", gaps: [43, 44] });
  expect(record([], [schedule, unbroken], series.slice(1)).owed).toMatchObject({ count: 5, gaps: [43, 44] });
});

test("a number that another month carries is no gap; a series that starts again leaves it to the schedule", () => {
  const moved = numbers(["40", "2031-05-30"], ["41", "2031-06-02"], ["42", "2031-07-01"], ["43", "2031-06-05"]);
  expect(record([], [unbroken], moved).owed).toMatchObject({ count: 3, gaps: [] });
  const again = numbers(["900", "2031-05-30"], ["1", "2031-06-02"], ["2", "2031-06-03"]);
  expect(record([], [schedule, unbroken], again).owed).toMatchObject({ count: 50, by: "schedule" });
});

test("a weight of nothing is a weight; a blank is missing", () => {
  const zero = batch("2031-06-02", 10, 0);
  const blank = batch("2031-06-02", 10, null);
  expect(record([zero, blank], [schedule]).usable["dry-yield"]).toBe(1);
  expect(fieldCompleteness([zero, blank], ["fresh", "dried"], 0)).toMatchObject({ present: 3, required: 4 });
});

test("cells of missing batches are missing cells, and nothing required is no share", () => {
  expect(fieldCompleteness([batch("2031-06-02", 10, 3)], ["fresh", "dried"], 3)).toMatchObject({ share: 2 / 8 });
  expect(fieldCompleteness([], ["fresh"], 0).share).toBeNull();
});

test("whatever comes, owed and here always differ by what is missing and what is too much", () => {
  for (let seed = 1; seed <= 100; seed++) {
    const days = Array.from(
      { length: seed % 31 },
      (_, i) => `2031-06-${String(((seed * (i + 7)) % 30) + 1).padStart(2, "0")}`,
    );
    const perDay = 1 + (seed % 3);
    const found = record(
      days.map((day) => batch(day, 10, i3(day))),
      [fact("schedule", { weekdays: [1, 3, 5], perDay, of: "batches" })],
    );
    const count = found.owed.count ?? Number.NaN;
    expect(Math.max(count, found.here), `seed ${seed}`).toBe(found.missing! + found.here);
    expect(found.here - found.excess! + found.missing!, `seed ${seed}`).toBe(count);
    if (found.hereShare.known) expect(found.hereShare.value, `seed ${seed}`).toBeLessThanOrEqual(1);
  }
});

function i3(day: string): number | null {
  return Number(day.slice(-2)) % 3 === 0 ? null : 3;
}
