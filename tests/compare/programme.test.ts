import { expect, test } from "vitest";
import { programmeMonth, type SiteInMonth } from "#server/compare/programme";

const site = (number: number, more: Partial<SiteInMonth> = {}): SiteInMonth => ({
  site: number,
  owedLog: true,
  sentLog: true,
  filedNothing: false,
  freshKg: 400,
  driedKg: 130,
  tooFew: false,
  ...more,
});

test("a month is counted over its sites", () => {
  const month = programmeMonth([
    site(3),
    site(1),
    site(2, { sentLog: false, freshKg: null, driedKg: null }),
    site(4, { owedLog: false, sentLog: false, filedNothing: true, freshKg: null, driedKg: null }),
    site(5, { tooFew: true, driedKg: null }),
  ]);
  expect(month).toEqual({
    sites: 5,
    owing: 4,
    sent: 3,
    filedNothing: 1,
    freshKg: 1200,
    driedKg: 260,
    tooFew: [5],
    silent: [2],
  });
});

test("masses are unknown where nothing was weighed, and not nothing", () => {
  expect(programmeMonth([site(1, { freshKg: null, driedKg: null })])).toMatchObject({ freshKg: null, driedKg: null });
});

test("a log that nobody owed counts with what is in it", () => {
  expect(programmeMonth([site(1, { owedLog: false })])).toMatchObject({ owing: 0, sent: 0, freshKg: 400, silent: [] });
});
