import { expect, test } from "vitest";
import { lateClosings } from "#server/jobs/lateClosings";
import type { Fact } from "#server/terms/facts";

const fact = (one: Partial<Fact<"closed">> & { from: string; declaredOn: string }): Fact => ({
  site: 1,
  kind: "closed",
  key: one.from,
  to: one.from,
  value: { reason: "no larvae", accepted: false },
  ledgerIndex: 2,
  ...one,
});
const due: Fact = {
  site: 1,
  kind: "due",
  key: "",
  from: "2031-01-01",
  to: null,
  value: { dayOfMonth: 10 },
  ledgerIndex: 1,
  declaredOn: "2031-01-01",
};

test.each([
  { said: "by the due day is in time", declaredOn: "2031-05-10", late: 0 },
  { said: "a day after the due day is late", declaredOn: "2031-05-11", late: 1 },
])("a closed day of April declared $said", ({ declaredOn, late }) => {
  expect(lateClosings([due, fact({ from: "2031-04-07", declaredOn })], 1)).toHaveLength(late);
});

test("where no due day is declared nothing is late", () => {
  expect(lateClosings([fact({ from: "2031-04-07", declaredOn: "2031-12-01" })], 1)).toEqual([]);
});

test("what was accepted or taken back since, or is another site's, is not asked for", () => {
  const late = { from: "2031-04-07", declaredOn: "2031-06-01" };
  const accepted = fact({ ...late, value: { reason: "no larvae", accepted: true }, ledgerIndex: 3 });
  const back = fact({ ...late, value: null, ledgerIndex: 3 });
  expect(lateClosings([due, fact(late), accepted], 1)).toEqual([]);
  expect(lateClosings([due, fact(late), back], 1)).toEqual([]);
  expect(lateClosings([due, fact({ ...late, site: 2 })], 1)).toEqual([]);
  expect(lateClosings([due, fact(late)], 1)).toHaveLength(1);
});
