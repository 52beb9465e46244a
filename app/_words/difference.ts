import type { BatchWritten } from "#server/terms/batch";
import type {
  BatchNamed,
  Difference,
  FieldChanged,
  FuelDifference,
  JoinOffered,
  Plain,
  RowDifference,
} from "#server/terms/difference";
import type { Why } from "#server/terms/history";
import { judged } from "./choices";
import { counted, dayInWords, listInWords } from "./days";
import { amountInWords, FUEL_WORDS } from "./fuel";
import { METHOD_WORDS } from "./methods";

/** What a log can say of a load, as a change of it is told; behind it the unit of its numbers. */
const FIELDS: Record<keyof BatchWritten, readonly [name: string, unit: string]> = {
  day: ["day", ""],
  number: ["number", ""],
  pan: ["pan", ""],
  startMinute: ["start", ""],
  endMinute: ["end", ""],
  harvest: ["harvest code", ""],
  method: ["way of drying", ""],
  grain: ["what the row stands for", ""],
  loads: ["loads", ""],
  fresh: ["fresh in", " kg"],
  dried: ["dried out", " kg"],
  driedToCome: ["dried weight to come", ""],
  minutes: ["minutes on the fire", ""],
  rejects: ["rejects", " kg"],
  sandKg: ["sand in the pan", " kg"],
  sandCycle: ["load on this sand", ""],
  newSand: ["new sand", ""],
  crushTest: ["crush test", ""],
  crisp: ["puffed and crisp", ""],
  colour: ["colour", ""],
  moistureReading: ["moisture reading", ""],
  waterActivity: ["water activity", ""],
};

const GRAINS: Record<string, string> = {
  load: "one load",
  set: "loads weighed together",
  "pan-day": "a day of a pan",
  "site-day": "a day of the site",
};

/** "fresh in: 12 kg, now 12.4 kg". */
export function changeInWords({ field, was, is }: FieldChanged): string {
  const [name] = FIELDS[field];
  return `${name}: ${saidInWords(field, was)}, now ${saidInWords(field, is)}`;
}

function saidInWords(field: keyof BatchWritten, value: Plain): string {
  if (value === null) return "nothing said";
  if (field === "day") return dayInWords(String(value));
  if (field === "startMinute" || field === "endMinute") return clock(Number(value));
  if (field === "grain") return GRAINS[String(value)] ?? String(value);
  if (field === "method") return METHOD_WORDS[String(value) as keyof typeof METHOD_WORDS] ?? String(value);
  if (typeof value === "boolean") return value ? "yes" : "no";
  return `${value}${FIELDS[field][1]}`.replace("not-tested", "not tested");
}

function clock(minute: number): string {
  return `${String(Math.floor(minute / 60) % 24).padStart(2, "0")}:${String(minute % 60).padStart(2, "0")}`;
}

/** "load 7 of 3 Apr 2031, pan 2: 12 kg fresh, 3.9 kg dried". */
export function batchInWords(batch: Omit<BatchNamed, "id">): string {
  const { day, number, pan, startMinute, loads, fresh, dried } = batch;
  const what = loads === 1 ? "load" : `${loads} loads`;
  const names = [
    `${what}${number === null ? "" : ` ${number}`} of ${dayInWords(day)}`,
    ...(pan === null ? [] : [`pan ${pan}`]),
    ...(startMinute === null ? [] : [`from ${clock(startMinute)}`]),
  ];
  const weights = [
    fresh === null ? "no fresh weight" : `${fresh} kg fresh`,
    dried === null ? "no dried weight yet" : `${dried} kg dried`,
  ];
  return `${names.join(", ")}: ${weights.join(", ")}`;
}

/** What happens to a row that is not the same, in one sentence behind its load. */
export function rowDifferenceInWords({ verdict, changes, instead }: RowDifference): string {
  if (instead.length > 0)
    return `It takes the place of ${counted(instead.length, "load")} that came one by one: ${listInWords(instead.map(nameOf))}.`;
  if (verdict === "joined") return "It brings the dried weight of a load that is here.";
  if (verdict === "no-load") return "It brings a dried weight whose load is not here yet.";
  return changes.map(changeInWords).join("; ");
}

/** One way to join a dried weight to loads that are here, with the yield that they would have. */
export function joinInWords({ loads, dryYield }: JoinOffered): string {
  const [only] = loads;
  const follows = `which makes a dry yield of ${Math.round(dryYield * 100)} %${judged(dryYield)}`;
  if (only === undefined) return follows;
  if (loads.length === 1) return `It is the dried weight of ${batchInWords(only)}, ${follows}.`;
  const days = [...new Set(loads.map(({ day }) => dayInWords(day)))];
  const fresh = loads.reduce((kg, load) => kg + Number(load.fresh ?? 0), 0);
  const names = loads.every(({ number }) => number !== null)
    ? `loads ${listInWords(loads.map(({ number }) => number ?? ""))}`
    : `all ${loads.length} loads`;
  return `It is the dried weight of ${names} of ${listInWords(days)} together: ${Number(fresh.toFixed(6))} kg fresh, ${follows}.`;
}

function nameOf({ number, day }: BatchNamed): string {
  return number === null ? `one of ${dayInWords(day)}` : number;
}

/** What changes about fuel on a line of its own. */
export function fuelDifferenceInWords({ day, fuel, was, is }: FuelDifference): string {
  return `${FUEL_WORDS[fuel]} on ${dayInWords(day)}: ${fuelSaid(was)}, now ${fuelSaid(is)}`;
}

function fuelSaid(said: FuelDifference["was"]): string {
  if (said === null) return "nothing";
  if (said.kind === "amount") return amountInWords(null, said.amount.value, null, said.unit);
  if (said.kind === "cylinder-change") return counted(said.count, "cylinder");
  if (said.kind === "span") return amountInWords(said.low, said.best, said.high, said.unit);
  const weighed = [
    ...(said.before === null ? [] : [`${said.before.exact} kg before`]),
    ...(said.after === null ? [] : [`${said.after.exact} kg after`]),
  ];
  return `cylinder ${weighed.length === 0 ? "not weighed" : listInWords(weighed)}`;
}

/** "3 new, 2 changed, 25 as they are here". */
export function countsInWords({ counts }: Difference): string {
  const parts = [
    [counts.new, "new"],
    [counts.changed, "changed"],
    [counts.joined, "joined by their dried weight"],
    [counts.doubtful, "unclear"],
    [counts.noLoad, "waiting for their load"],
    [counts.same, "as they are here already"],
  ] as const;
  return listInWords(parts.flatMap(([count, how]) => (count === 0 ? [] : [`${count.toLocaleString("en-GB")} ${how}`])));
}

export const WHY_WORDS: Record<Why["reason"], string> = {
  late: "something came late and was filled in",
  misread: "something was misread or miswritten",
  unit: "it was in the wrong unit",
  scale: "the scale was wrong",
  twice: "something stood there twice",
  other: "another reason",
};

/** Why a log says something else than before: the reason of the list, with what was added to it. */
export function whyInWords({ reason, words }: Why): string {
  if (words === "") return WHY_WORDS[reason];
  return reason === "other" ? words : `${WHY_WORDS[reason]}: ${words}`;
}
