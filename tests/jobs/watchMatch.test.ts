import { expect, test } from "vitest";
import { named } from "#server/jobs/watchMatch";
import type { SignalRow } from "#server/jobs/watchOrder";
import type { Signal } from "#server/terms/signal";

/** A signal of an invented site, told or found on a day. */
function signal(raisedOn: string, confirms: string | null = null): Signal {
  return {
    site: 1,
    method: "sand-pan",
    measure: "throughput",
    direction: "up",
    chart: "drift",
    raisedOn,
    confirms,
    since: "2031-08-14",
    sinceFrom: "2031-07-18",
    sinceTo: "2031-09-09",
    dateDetermined: true,
    change: 0.13,
    low: 0.07,
    high: 0.2,
    level: 0.95,
    before: 5.4,
    after: 6.1,
    per30Days: 40,
    daysSince: 20,
  };
}

function row(raisedOn: string, confirms: string | null = null): SignalRow {
  const told = signal(raisedOn, confirms);
  return { ...told, site: 1, month: raisedOn.slice(0, 7), state: "stands", together: false, costDriedKg: 5 };
}

const confirmsOf = (all: ReturnType<typeof named>, day: string) =>
  all.find(({ key }) => key.raisedOn === day)?.now?.confirms;

test("a signal says again what was told, also where its month would have found that on a neighbouring day", () => {
  // September told the 11th and, again, the 19th; October scores the same days by its own parameters and would have said the 14th
  const told = [row("2031-09-11"), row("2031-09-19", "2031-09-11")];
  const found = [signal("2031-09-11"), signal("2031-09-19", "2031-09-11"), signal("2031-10-07", "2031-09-14")];
  expect(confirmsOf(named(told, found), "2031-10-07")).toBe("2031-09-11");
});

test("nearest to one that says another again, it says that other again", () => {
  const told = [row("2031-09-01"), row("2031-09-13", "2031-09-01")];
  const found = [signal("2031-09-01"), signal("2031-09-13", "2031-09-01"), signal("2031-10-07", "2031-09-14")];
  expect(confirmsOf(named(told, found), "2031-10-07")).toBe("2031-09-01");
});

test("what was told in months before those laid beside each other keeps its day", () => {
  const ever = [row("2031-05-20"), row("2031-09-11", "2031-05-20")];
  const found = [signal("2031-09-11", "2031-05-20"), signal("2031-10-07", "2031-05-20")];
  const all = named(ever.slice(1), found, ever);
  expect(confirmsOf(all, "2031-09-11")).toBe("2031-05-20");
  expect(confirmsOf(all, "2031-10-07")).toBe("2031-05-20");
});

test("the first of a chain is named alike, whether all months are laid beside each other or only the last", () => {
  // as under a fuel's chart of spring: May means a day that March never told
  const ever = [row("2031-03-18"), row("2031-03-26", "2031-03-18"), row("2031-05-14", "2031-03-18")];
  const [march, again, may] = [
    signal("2031-03-18"),
    signal("2031-03-26", "2031-03-18"),
    signal("2031-05-14", "2031-03-24"),
  ] as const;
  expect(confirmsOf(named(ever, [march, again, may], ever), "2031-05-14")).toBe("2031-03-18");
  expect(confirmsOf(named(ever.slice(2), [may], ever), "2031-05-14")).toBe("2031-03-18");
});

test("where nothing was told before, nothing is said again", () => {
  expect(confirmsOf(named([], [signal("2031-10-07", "2031-09-14")]), "2031-10-07")).toBeNull();
});

test("the same is laid together, whether all months are laid beside each other or only the last", () => {
  // both of August moved; July, which is not always looked at, finds one that August's could be taken for
  const told = [row("2031-08-04"), row("2031-08-14")];
  const [july, august] = [signal("2031-07-12"), signal("2031-08-12")];
  const daysOf = (all: ReturnType<typeof named>) =>
    all.filter(({ key }) => key.raisedOn >= "2031-08").map(({ key, now }) => [key.raisedOn, now?.raisedOn ?? null]);
  expect(daysOf(named(told, [july, august]))).toEqual([
    ["2031-08-04", null],
    ["2031-08-14", "2031-08-12"],
  ]);
  expect(daysOf(named(told, [august]))).toEqual(daysOf(named(told, [july, august])));
});
