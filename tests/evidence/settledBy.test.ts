import { expect, test } from "vitest";
import { type Settling, settledBy } from "#server/evidence/settledBy";

const settling = (ledgerIndex: number, by: "lead" | "officer", answers: Settling["answers"]): Settling => ({
  ledgerIndex,
  answers,
  remembered: null,
  person: `person of ${by}`,
  by,
  at: `2031-06-0${ledgerIndex}T08:00:00Z`,
});

test("an answer is of whoever gave it first and has let it stand since", () => {
  const settlings = [
    settling(1, "lead", { dayOrder: "dmy", cells: { "June!C3": "3 kg" } }),
    settling(2, "officer", { dayOrder: "dmy", cells: { "June!C3": "4 kg" }, setAside: ["June!9"] }),
    settling(3, "lead", { dayOrder: "dmy", cells: { "June!C3": "4 kg" }, setAside: ["June!9"] }),
  ];
  expect(settledBy(settlings).map(({ asked, put, by, ledgerIndex }) => [asked, put, by, ledgerIndex])).toEqual([
    ["day-order", "dmy", "lead", 1],
    ["cell", "4 kg", "officer", 2],
    ["set-aside", null, "officer", 2],
  ]);
});

test("an answer that was taken back and given anew is of whoever gave it anew", () => {
  const dmy = { dayOrder: "dmy" } as const;
  const settlings = [settling(1, "lead", dmy), settling(2, "lead", null), settling(3, "officer", dmy)];
  expect(settledBy(settlings)).toMatchObject([{ by: "officer", ledgerIndex: 3 }]);
  expect(settledBy([])).toEqual([]);
});

test("what an earlier log settled names that log", () => {
  const answers = { dayOrder: "dmy", units: { "June!C": "kg" } } as const;
  const one = { ...settling(1, "lead", answers), remembered: { file: "may", answers: { dayOrder: "dmy" } as const } };
  expect(settledBy([one]).map(({ asked, from }) => [asked, from])).toEqual([
    ["day-order", "may"],
    ["column-unit", null],
  ]);
});
