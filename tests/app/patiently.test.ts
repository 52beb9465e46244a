import { expect, test } from "vitest";
import { progressInWords, workInWords } from "#app/_words/underWay";
import { patiently, type Waiting, waitNoMore } from "#app/send/patiently";

const soon = (ms: number, answer: string) => new Promise<string>((done) => setTimeout(done, ms, answer));

test("what is quick is answered at once and not kept", async () => {
  const waiting: Waiting<string> = new Map();
  expect(await patiently(waiting, "somebody a-log", () => soon(1, "read"))).toEqual({ answer: "read" });
  expect(waiting.size).toBe(0);
});

test("what takes longer is waited for once, whoever often asks", async () => {
  const waiting: Waiting<string> = new Map();
  let begun = 0;
  const begin = () => {
    begun++;
    return soon(1_600, "read");
  };
  expect(await patiently(waiting, "somebody a-log", begin)).toBeNull();
  expect(await patiently(waiting, "somebody a-log", begin)).toEqual({ answer: "read" });
  expect(begun).toBe(1);
  expect(waiting.size).toBe(0);
});

test("what broke says so to whom it waits for, and may begin anew; what nobody waits for any more is forgotten", async () => {
  const waiting: Waiting<string> = new Map();
  const breaks = () => Promise.reject(new Error("it broke"));
  await expect(patiently(waiting, "somebody a-log", breaks)).rejects.toThrow("it broke");
  expect(waiting.size).toBe(0);
  waiting.set("somebody a-log", soon(1, "read"));
  waiting.set("somebody else", soon(1, "read"));
  waitNoMore(waiting, "somebody a-log");
  expect([...waiting.keys()]).toEqual(["somebody else"]);
});

test("how far a log is stands in bytes and rows, with what it means", () => {
  const begun = {
    doing: "reading",
    step: "reading",
    bytes: 0,
    ofBytes: 9_000,
    rows: 0,
    ofRows: null,
    pass: 1,
    inParts: false,
  } as const;
  expect(progressInWords(begun)).toBe("0 of 9,000 bytes are read.");
  const rows = { ...begun, bytes: 9_000, rows: 3_000, ofRows: 12_001 };
  expect(progressInWords(rows)).toBe("9,000 of 9,000 bytes are read, and 3,000 of 12,001 rows.");
  expect(progressInWords({ ...rows, step: "storing" })).toBe(
    "All of it is read; 3,000 of 12,001 rows are written down.",
  );
  expect(progressInWords({ ...rows, bytes: 4_000, ofRows: null, inParts: true })).toBe(
    "4,000 of 9,000 bytes and 3,000 rows are counted.",
  );
  expect(progressInWords({ ...rows, step: "storing", inParts: true })).toBe(
    "All of it is read; 3,000 of 12,001 rows are counted.",
  );
  expect(workInWords({ ...rows, doing: "counting", inParts: true })).toContain("counts already");
  expect(workInWords(rows)).toBe("It is being read. Nothing is counted by that.");
  expect(workInWords({ ...rows, pass: 2 })).toContain("This is reading 2");
  expect(workInWords({ ...rows, doing: "counting" })).toContain("nothing of it counts yet");
  expect(workInWords({ ...rows, doing: "counting", step: "storing" })).toContain("wholly or not at all");
});
