import { expect, test } from "vitest";
import { type Standing, saidLast, whereWritten, writtenAt } from "#server/evidence/whereItStands";

const row = (about: Partial<Standing>): Standing => ({
  batch: "b",
  log: "EV-1",
  file: "f1",
  sha256: "aa",
  stands: true,
  sheet: "June",
  row: 5,
  at: 5,
  part: "whole",
  fate: "counted",
  ledgerIndex: 3,
  cells: [
    { column: "B", meaning: "fresh", text: "10,5" },
    { column: "C", meaning: "dried", text: " " },
  ],
  ...about,
});
const dried = (text: string) => [{ column: "F", meaning: "dried" as const, text }];

test("a value stands in the last row that says it; a blank there takes nothing back", () => {
  const later = row({ ledgerIndex: 7, log: "EV-2", row: 9, cells: dried("3.2") });
  expect(writtenAt([row({}), later], "fresh")).toMatchObject({ column: "B", text: "10,5", standing: { log: "EV-1" } });
  expect(whereWritten([row({}), later])).toMatchObject({
    dried: { column: "F", text: "3.2", standing: { row: 9 } },
    minutes: null,
  });
  const corrected = row({ ledgerIndex: 8, row: 11, cells: dried("3.4") });
  expect(writtenAt([corrected, row({}), later], "dried")).toMatchObject({ text: "3.4" });
});

test("a log that was taken back says nothing any more", () => {
  const back = row({ ledgerIndex: 9, stands: false, cells: dried("9.9") });
  expect(writtenAt([row({ cells: dried("3.2") }), back], "dried")).toMatchObject({ text: "3.2" });
  expect(writtenAt([back], "dried")).toBeNull();
  expect(saidLast([back])).toBeNull();
});

test("several cells that were added up are all named", () => {
  const two = row({ cells: [...dried("1.1"), { column: "H", meaning: "dried", text: "2.1" }] });
  expect(writtenAt([two], "dried")).toMatchObject({ column: "F+H", text: "1.1 + 2.1" });
});

test("minutes that nobody wrote stand in the cells of start and end", () => {
  const start = { column: "G", meaning: "start" as const, text: "23:50" };
  const end = { column: "H", meaning: "end" as const, text: "01:10" };
  expect(whereWritten([row({ cells: [start, end] })]).minutes).toMatchObject({ column: "G+H", text: "23:50 to 01:10" });
  expect(whereWritten([row({ cells: [start] })]).minutes).toBeNull();
  const said = row({ ledgerIndex: 2, cells: [{ column: "K", meaning: "minutes", text: "80" }] });
  expect(whereWritten([row({ cells: [start, end] }), said]).minutes).toMatchObject({ column: "K" });
});

test("the row of a batch is the last whole one, not the one that brought its dried weight", () => {
  const weight = row({ ledgerIndex: 8, part: "dried", row: 2, file: "f2" });
  expect(saidLast([row({}), weight, row({ ledgerIndex: 5, row: 6 })])).toMatchObject({ row: 6 });
});

test("the order in which rows are given changes nothing", () => {
  const rows = [1, 2, 3, 4].map((at) => row({ row: at, file: `f${at % 2}`, ledgerIndex: 3, cells: dried(`${at}`) }));
  const found = writtenAt(rows, "dried");
  for (let turn = 1; turn < 4; turn++)
    expect(writtenAt([...rows.slice(turn), ...rows.slice(0, turn)], "dried")).toEqual(found);
});
