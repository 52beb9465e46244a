import { laidOver, type Said } from "#server/terms/answers";
import { type Fault, faultKey, type PutRight } from "#server/terms/fault";
import { CAN_STAND } from "#server/terms/problem";
import type { Answers, Reading, RowRead } from "#server/terms/row";

/**
 * Everything that a person said, as answers of single cells, rows and columns: a yes to a fault becomes what it changes,
 * and what was said of all rows of one doubt is said of each. What was said of a single cell wins.
 */
export function inFull(reading: Reading, faults: readonly Fault[], { alike = {}, ...said }: Said): Answers {
  let whole: Answers = {};
  const done: Record<string, "put-right"> = {};
  for (const fault of faults) {
    const key = faultKey(fault);
    if (said.faults?.[key] !== "yes" || fault.answers === null) continue;
    whole = laidOver(whole, fault.answers);
    done[key] = "put-right";
  }
  for (const [kind, how] of Object.entries(alike)) whole = laidOver(whole, ofAll(reading.rows, kind, how));
  const all: Answers = laidOver(whole, said);
  return Object.keys(done).length === 0 ? all : { ...all, faults: { ...all.faults, ...done } };
}

/** The faults that a person said yes to just now, with the rows that it changes. */
export function confirmedNow(faults: readonly Fault[], { faults: said = {} }: Said): PutRight[] {
  return faults.flatMap((fault) =>
    said[faultKey(fault)] === "yes" && fault.answers !== null
      ? [{ code: fault.code, sheet: fault.sheet, rows: fault.rows }]
      : [],
  );
}

/** True when something was said that may have to be turned into answers of single places first. */
export function isInShort({ alike = {}, faults = {} }: Said): boolean {
  return Object.keys(alike).length > 0 || Object.values(faults).includes("yes");
}

/** What is to be done with every row that a doubt holds: "unit-slip-suspected log!D" and "0", "as-written" or "aside". */
function ofAll(rows: readonly RowRead[], kind: string, how: string): Answers {
  const cells: Record<string, string> = {};
  const asWritten: string[] = [];
  const setAside: string[] = [];
  for (const row of rows) {
    for (const { code, at, choices } of row.fate === "held" ? row.reasons : []) {
      if (`${code} ${at.sheet}!${at.column ?? ""}` !== kind) continue;
      const place = `${at.sheet}!${at.column ?? ""}${at.row}`;
      if (how === "aside") setAside.push(`${at.sheet}!${at.row}`);
      if (how === "as-written" && CAN_STAND.has(code)) asWritten.push(place);
      const choice = /^\d$/.test(how) ? choices?.[Number(how)] : undefined;
      if (choice === undefined) continue;
      cells[place] = choice.put;
      if (choice.with !== undefined) cells[`${at.sheet}!${choice.with.column}${at.row}`] = choice.with.put;
    }
  }
  return {
    ...(Object.keys(cells).length === 0 ? {} : { cells }),
    ...(asWritten.length === 0 ? {} : { asWritten }),
    ...(setAside.length === 0 ? {} : { setAside }),
  };
}
