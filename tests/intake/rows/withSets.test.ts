import { expect, test } from "vitest";
import { lines, readLines } from "../readings";

const JUNE = { period: "2031-06" };
const HEADING = "Date | No | In (kg) | Out (kg) | Minutes | Gas (kg)";

test("a row numbered 3+4+5 with both weights is one set of three loads", () => {
  const read = readLines(JUNE, HEADING, "13/6/31 | 3+4+5 | 32 | 10.4 | 270 | 2.1");
  expect(lines(read)[1]).toBe("2 counted 2031-06-13 #3+4+5 32>10.4 270min set of 3 2031-06-13 lpg 2.1kg");
});

test("three loads and one dried weight for 3+4+5 are one set of their sums; each row keeps its fuel and its one fate", () => {
  const read = readLines(
    JUNE,
    HEADING,
    "13/6/31 | 3 | 10 | | 90 | 0.7",
    "13/6/31 | 4 | 10 | | 85 | 0.7",
    "13/6/31 | 5 | 12 | | 95 | 0.7",
    "14/6/31 | 3+4+5 | | 10.4 | |",
  );
  expect(lines(read).slice(1)).toEqual([
    "2 counted 2031-06-13 lpg 0.7kg | weighed-together",
    "3 counted 2031-06-13 lpg 0.7kg | weighed-together",
    "4 counted 2031-06-13 lpg 0.7kg | weighed-together",
    "5 counted 2031-06-13 #3+4+5 32>10.4 270min set of 3 | weighed-together",
  ]);
  expect(read.rows[1]?.countsWith).toEqual({ sheet: "Log", row: 5 });
  expect(read.rows[1]?.cells.map(({ text }) => text)).toEqual(["13/6/31", "3", "10", "90", "0.7"]);
});

test("a set of which one load is not in the log is left alone", () => {
  const read = readLines(JUNE, HEADING, "13/6/31 | 3 | 10 | | 90 |", "14/6/31 | 3+4 | | 6.4 | |");
  expect(lines(read).slice(1)).toEqual([
    "2 counted 2031-06-13 #3 10>? 90min | dried-to-come",
    "3 counted 2031-06-14 #3+4 ?>6.4 dried only | fresh-missing",
  ]);
});

const ONE_OUT = [HEADING, "13/6/31 | 3 | 10 | | 90 |", "13/6/31 | 4 | 10 | | 85 |", "13/6/31 | 5 | 12 | 10.4 | 95 |"];

test("one weight under three loads is no set until a person says so", () => {
  expect(lines(readLines(JUNE, ...ONE_OUT)).slice(1)).toEqual([
    "2 counted 2031-06-13 #3 10>? 90min | dried-to-come",
    "3 counted 2031-06-13 #4 10>? 85min | dried-to-come",
    "4 counted 2031-06-13 #5 12>10.4 95min | yield-unusual",
  ]);
  const answers = { together: [["Log!4", "Log!2", "Log!3"]] };
  expect(lines(readLines({ ...JUNE, answers }, ...ONE_OUT)).slice(1)).toEqual([
    "2 counted | weighed-together",
    "3 counted | weighed-together",
    "4 counted 2031-06-13 #3+4+5 32>10.4 270min set of 3 | weighed-together",
  ]);
});

test("an answer about rows that cannot be weighed together changes nothing", () => {
  const asItIs = lines(readLines(JUNE, ...ONE_OUT));
  for (const together of [[["Log!4"]], [["Log!4", "Log!99"]], [["Log!2", "Log!3"]], [["Log!4", "Log!1"]]])
    expect(lines(readLines({ ...JUNE, answers: { together } }, ...ONE_OUT))).toEqual(asItIs);
});
