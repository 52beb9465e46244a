import { expect, test } from "vitest";
import { effectInWords, faultInWords, yesInWords } from "#app/_words/faults";
import { faultsOf } from "#server/intake/faults/faultsOf";
import { readFile, readLines } from "../readings";
import { faultsIn, logOf } from "./logs";

test.each(["english-loads.csv", "month-g.csv", "tally-june.csv", "tally-july.csv", "french-tally.csv"])(
  "%s, an ordinary log, shows no fault",
  (name) => {
    expect(faultsOf(readFile(name), { period: "2031-06" })).toEqual([]);
  },
);

test("finding faults changes nothing of what was read", () => {
  const read = readLines({ period: "2031-06" }, ...logOf(["3.2", "10"], ["3.5", "11"], ["2.9", "9"]));
  const before = structuredClone(read);
  expect(faultsOf(read, { period: "2031-06" })).toHaveLength(1);
  expect(read).toEqual(before);
});

test("each sheet is judged by itself", () => {
  const [fault] = faultsIn([
    "Date | In (kg) | Out (kg) | | Date | In (kg) | Out (kg)",
    "13/6/31 | 10 | 3.1 | | 13/6/31 | 3.2 | 10",
    "14/6/31 | 10 | 3.2 | | 14/6/31 | 3.5 | 11",
    "15/6/31 | 10 | 3.3 | | 15/6/31 | 2.9 | 9",
  ]);
  expect(fault).toMatchObject({ code: "in-out-exchanged", sheet: "Log (columns E to G)" });
  expect(fault?.answers?.meanings).toEqual({ "Log (columns E to G)!F": "dried", "Log (columns E to G)!G": "fresh" });
});

test("a fault is put as a question, with its effect", () => {
  const [fault] = faultsIn(logOf(["9", "3.56"], ["11", "4.20"], ["13", "4.84"]));
  if (fault === undefined) throw new Error("no fault was found");
  expect(faultInWords(fault)).toBe(
    "The weights of 3 loads lie on a line that a container of 1 kg in both of them would make. Was the bucket weighed with the larvae?",
  );
  expect(effectInWords(fault)).toBe("Their dry yield would then be 32 % instead of 38 %.");
  expect(yesInWords(fault)).toBe("Yes, take the container off both weights");
});
