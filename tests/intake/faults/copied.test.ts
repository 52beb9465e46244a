import { expect, test } from "vitest";
import { chance, faultsIn, logOf } from "./logs";

/** A month of loads whose weights differ, on a scale of 10 g. */
function month(seed: number, count = 40): string[][] {
  const next = chance(seed);
  return Array.from({ length: count }, () => {
    const fresh = 8 + 4 * next();
    const dried = fresh * (0.3 + 0.05 * next());
    return [fresh.toFixed(2), dried.toFixed(2), String(80 + Math.floor(30 * next()))];
  });
}

test("a block of five rows that comes again is found, and only the copy is offered to be set aside", () => {
  const loads = month(1);
  const log = logOf(...loads.slice(0, 25), ...loads.slice(10, 15), ...loads.slice(25));
  expect(faultsIn(log)).toMatchObject([
    {
      code: "rows-copied",
      evidence: { length: 5, after: 15 },
      rows: [27, 28, 29, 30, 31],
      answers: { setAside: ["Log!27", "Log!28", "Log!29", "Log!30", "Log!31"] },
    },
  ]);
});

test("the same row four times in a row is asked about, and nothing is set aside by a yes", () => {
  const loads = month(2);
  const [one = []] = loads;
  const [fault] = faultsIn(logOf(one, one, one, ...loads));
  expect(fault).toMatchObject({
    code: "rows-copied",
    evidence: { length: 4, after: 1 },
    rows: [2, 3, 4, 5],
    answers: null,
  });
});

test("honest months are not suspected, neither of varying loads nor of fixed loads of 1 kg on a scale of 10 g", () => {
  for (let seed = 1; seed <= 60; seed++) {
    const next = chance(seed);
    const fixed = Array.from({ length: 400 }, () => {
      const dried = 0.32 + 0.01 * Math.round(2 * (next() + next() - 1));
      return ["1.00", dried.toFixed(2), String(17 + Math.floor(3 * next()))];
    });
    expect(faultsIn(logOf(...fixed)), `fixed loads, seed ${seed}`).toEqual([]);
    expect(faultsIn(logOf(...month(seed))), `varying loads, seed ${seed}`).toEqual([]);
  }
});

test("a run of three equal triples is nothing where loads are fixed", () => {
  const next = chance(7);
  const fixed = Array.from({ length: 60 }, () => [
    "1.00",
    ["0.31", "0.32", "0.33"][Math.floor(3 * next())] ?? "",
    "18",
  ]);
  const three = ["1.00", "0.32", "18"];
  expect(faultsIn(logOf(three, three, three, ...fixed))).toEqual([]);
});
