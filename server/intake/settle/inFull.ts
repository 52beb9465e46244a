import { allLaidOver, type Said } from "#server/terms/answers";
import { type Fault, faultKey, faultKindKey, type PutRight } from "#server/terms/fault";
import { CAN_STAND } from "#server/terms/problem";
import type { Answers, Reading, RowRead } from "#server/terms/row";

/**
 * Everything that a person said, as answers of single cells, rows and columns: a yes to a fault becomes what it changes,
 * and what was said of all rows of one doubt is said of each. What was said of a single cell wins.
 */
export function inFull(reading: Reading, faults: readonly Fault[], answered: Said): Answers {
  const { alike = {}, ...said } = answered;
  const changes: Answers[] = [];
  const done: Record<string, "yes" | "no" | "put-right"> = {};
  for (const fault of faults) {
    const how = saidOf(fault, answered);
    if (how === "yes" && fault.answers !== null) {
      changes.push(fault.answers);
      done[faultKey(fault)] = "put-right";
    } else if (how === "yes" || how === "no") done[faultKey(fault)] = how;
  }
  const ofKinds = Object.entries(alike).map(([kind, how]) => ofAll(reading.rows, kind, how));
  const all = allLaidOver<Answers>([...changes, ...ofKinds, said]);
  return Object.keys(done).length === 0 ? all : { ...all, faults: { ...all.faults, ...done } };
}

/** What was said to a fault itself, or else to all of its kind. */
function saidOf(fault: Fault, { faults = {}, alike = {} }: Said): string | undefined {
  return faults[faultKey(fault)] ?? alike[faultKindKey(fault)];
}

/** The faults that a person said yes to just now, with the rows that it changes. */
export function confirmedNow(faults: readonly Fault[], said: Said): PutRight[] {
  return faults.flatMap((fault) =>
    saidOf(fault, said) === "yes" && fault.answers !== null
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
