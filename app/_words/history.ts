import type { Deed, SentLog, SettledRows, Who } from "#server/terms/history";
import { counted, listInWords, momentInWords } from "./days";
import { ROLE_WORDS } from "./methods";

/** "you", "Jonas Fell (site lead)"; the role alone where the name may not be seen or was erased. */
export function whoInWords({ self, name, role }: Who): string {
  if (self) return "you";
  const is = role === null ? "somebody" : ROLE_WORDS[role];
  return name === null ? is : `${name} (${is})`;
}

/** "30 rows: 25 counted, 2 need an answer, 3 are not a batch". */
export function fatesInWords({ rows, counted: count, held, setAside }: SentLog["rows"]): string {
  if (rows === 0) return "no row was counted yet";
  const parts = [
    ...(count === 0 ? [] : [`${count.toLocaleString("en-GB")} counted`]),
    ...(held === 0 ? [] : [`${held.toLocaleString("en-GB")} ${held === 1 ? "needs" : "need"} an answer`]),
    ...(setAside === 0 ? [] : [`${setAside.toLocaleString("en-GB")} ${setAside === 1 ? "is" : "are"} not a batch`]),
  ];
  return `${counted(rows, "row")}: ${listInWords(parts)}`;
}

/** What became of the rows that needed an answer, one phrase each time; null where none ever did. */
export function answeredInWords({ everHeld, settled, rows }: SentLog): string | null {
  if (everHeld === 0) return null;
  const parts = [
    ...settled.map(settledInWords),
    ...(rows.held === 0 ? [] : [`${rows.held.toLocaleString("en-GB")} still ${rows.held === 1 ? "waits" : "wait"}`]),
  ];
  return `${counted(everHeld, "row")} needed an answer: ${listInWords(parts)}`;
}

function settledInWords({ fate, how, by, at, rows }: SettledRows): string {
  const count = rows.toLocaleString("en-GB");
  const when = momentInWords(at);
  if (how === "joined") return `${count} found what ${rows === 1 ? "it" : "they"} lacked on ${when}`;
  const did = fate === "counted" ? "answered" : "set aside as no batch";
  return `${count} ${did} by ${whoInWords(by)} on ${when}`;
}

export const DEED_WORDS: Record<Deed["deed"], string> = {
  arrived: "Arrived",
  read: "Looked at",
  settled: "Answered",
  "counted-in-part": "Counted in part",
  counted: "Counted",
  "counted-again": "Counted again with other answers",
  "withdrawn-in-part": "Taken back in part",
  withdrawn: "Taken back",
};
