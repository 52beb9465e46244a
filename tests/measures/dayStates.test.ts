import { expect, test } from "vitest";
import { dayStates } from "#server/measures/dayStates";
import { daysBetween } from "#server/terms/days";
import { seeded } from "../statistics/seeded";
import { fact } from "./invented";

/** May 2031 begins on a Thursday. */
const PERIOD = { from: "2031-05-01", to: "2031-05-07" };
const PLAN = fact("schedule", { weekdays: [1, 2, 3, 4, 5, 6], perDay: 2, of: "batches" });
const LATER = "2031-06-15";
const states = (...given: Parameters<typeof dayStates>) => dayStates(...given).map(({ state }) => state);

test("a week by hand: logged, closed, missing, a Sunday off, and a logged Sunday", () => {
  const closed = fact(
    "closed",
    { reason: "feast", accepted: true },
    { key: "2031-05-02", from: "2031-05-02", to: "2031-05-02" },
  );
  expect(states(PERIOD, [PLAN, closed], ["2031-05-01", "2031-05-05"], LATER)).toEqual([
    "logged",
    "closed",
    "missing",
    "off",
    "logged",
    "missing",
    "missing",
  ]);
});

test.each([
  { said: "without a schedule nothing is missing", facts: [], today: LATER, expected: "off" },
  { said: "a day that is not over is not missing", facts: [PLAN], today: "2031-05-01", expected: "off" },
  { said: "the day before today is missing", facts: [PLAN], today: "2031-05-02", expected: "missing" },
  {
    said: "a site not open yet owes nothing",
    facts: [PLAN, fact("open", {}, { from: "2031-05-06" })],
    today: LATER,
    expected: "off",
  },
  {
    said: "a month filed as nothing produced",
    facts: [PLAN, fact("nothing-produced", {}, { from: "2031-05-01", to: "2031-05-31" })],
    today: LATER,
    expected: "nothing-produced",
  },
  {
    said: "a closing told after the due day is still owed",
    facts: [
      PLAN,
      fact("due", { dayOfMonth: 5 }),
      fact(
        "closed",
        { reason: "feast", accepted: false },
        { key: "2031-05-01", from: "2031-05-01", to: "2031-05-01", on: "2031-07-01" },
      ),
    ],
    today: LATER,
    expected: "missing",
  },
])("$said", ({ facts, today, expected }) => {
  expect(states(PERIOD, facts, [], today)[0]).toBe(expected);
});

test("every day has one state, and a logged day is never anything else", () => {
  for (let seed = 1; seed <= 100; seed++) {
    const chance = seeded(seed);
    const days = daysBetween(PERIOD.from, PERIOD.to);
    const logged = days.filter(() => chance.uniform() < 0.5);
    const told = dayStates(PERIOD, chance.uniform() < 0.5 ? [PLAN] : [], logged, LATER);
    expect(
      told.map(({ day }) => day),
      `seed ${seed}`,
    ).toEqual(days);
    expect(
      told.filter(({ state }) => state === "logged").map(({ day }) => day),
      `seed ${seed}`,
    ).toEqual(logged);
  }
});
