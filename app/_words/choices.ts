import { CAN_STAND, type Choice, type Problem } from "#server/terms/problem";
import type { Meaning, RowRead } from "#server/terms/row";
import { dayInWords, listInWords } from "./days";
import { MEANING_WORDS } from "./meanings";

/** What loads of this log usually weigh, in kg: the middle of those that are clear; null where there are too few. */
export interface Usual {
  readonly fresh: number | null;
  readonly dried: number | null;
}

const FEWEST = 3;

export function usualOf(rows: readonly Pick<RowRead, "fate" | "batch">[]): Usual {
  const clear = rows.flatMap(({ fate, batch }) => (fate === "counted" && batch !== null ? [batch] : []));
  const middle = (weights: readonly number[]) =>
    weights.length < FEWEST ? null : ([...weights].sort((a, b) => a - b)[Math.floor(weights.length / 2)] ?? null);
  return {
    fresh: middle(clear.flatMap(({ fresh }) => fresh?.value ?? [])),
    dried: middle(clear.flatMap(({ dried }) => dried?.value ?? [])),
  };
}

/** What one choice puts in the place of the cell, and what would follow, in figures. */
export function choiceInWords(choice: Choice, meaning: Meaning | null = null, usual: Usual | null = null): string {
  const { put, yieldThen } = choice;
  const minutes = minutesOf(put);
  const shown = minutes === null ? put : `${put}: ${minutes} minutes`;
  const day = /^\d{4}-\d{2}-\d{2}$/.test(put) ? dayInWords(put) : shown;
  const follows = [
    ...(yieldThen === null ? [] : [`which makes a dry yield of ${percent(yieldThen)}${judged(yieldThen)}`]),
    ...besideUsual(put, meaning, usual),
  ];
  return [day, ...follows].join(", ");
}

/** A yield beyond what larvae can have, or usually have: common practice. */
export function judged(share: number): string {
  if (share > 1) return ": more than went in, which cannot be";
  return share > 0.5 || share < 0.2 ? ": unusual" : "";
}

/** "1h20" is 80 minutes, "1.2 h" is 72; null for what is no time. */
function minutesOf(put: string): number | null {
  const [, hours, minutes] = /^(\d+)h(\d{1,2})$/.exec(put) ?? [];
  if (hours !== undefined) return Number(hours) * 60 + Number(minutes);
  const decimal = /^(\d+(?:\.\d+)?) h$/.exec(put)?.[1];
  return decimal === undefined ? null : Math.round(Number(decimal) * 600) / 10;
}

/** So many times a usual load is no load. */
const BEYOND = 20;

function besideUsual(put: string, meaning: Meaning | null, usual: Usual | null): string[] {
  const kg = Number(/^(-?\d+(?:\.\d+)?) kg$/.exec(put)?.[1] ?? Number.NaN);
  const own = meaning === "fresh" || meaning === "dried" ? (usual?.[meaning] ?? null) : null;
  if (own === null || own <= 0 || Number.isNaN(kg) || kg <= 0) return [];
  const times = kg / own;
  if (times >= BEYOND) return [`${rounded(times)} times the ${rounded(own)} kg that is usual here, which cannot be`];
  return times <= 1 / BEYOND ? [`only a ${rounded(1 / times)}th of the ${rounded(own)} kg that is usual here`] : [];
}

/** One answer to a doubt: what the form carries, and what it says. */
export interface Settling {
  /** cells with what is put into them, as JSON; or a list of the places that stand as they are written */
  readonly value: string;
  readonly says: string;
}

/** The answers that settle one doubt about one or several cells of a row; that it stands as it is written among them. */
export function settlingsOf(row: RowRead, reasons: readonly Problem[], usual: Usual | null = null): Settling[] {
  const several = reasons.length > 1;
  const chosen = reasons.flatMap((reason) => {
    if (reason.code === "dried-is-zero") return []; // that it stands says the same
    const meaning = meaningAt(row, reason.at.column);
    const named = several && meaning !== null ? `${MEANING_WORDS[meaning]} is ` : "";
    return (reason.choices ?? []).map((choice) => ({
      value: JSON.stringify(putsOf(row, reason, choice)),
      says: choice.with === undefined ? `${named}${choiceInWords(choice, meaning, usual)}` : exchangedInWords(choice),
    }));
  });
  if (!reasons.every(({ code }) => CAN_STAND.has(code)) || isOfFuel(row, reasons)) return chosen;
  const places = reasons.map(({ at }) => `${row.sheet}!${at.column ?? ""}${row.row}`);
  return [...chosen, { value: JSON.stringify(places), says: `${standsInWords(reasons)}${asIs(row, reasons)}` }];
}

function putsOf(row: RowRead, { at }: Problem, { put, with: other }: Choice): Record<string, string> {
  const place = (column: string | null) => `${row.sheet}!${column ?? ""}${row.row}`;
  return { [place(at.column)]: put, ...(other === undefined ? {} : { [place(other.column)]: other.put }) };
}

function exchangedInWords({ put, with: other, yieldThen }: Choice): string {
  const makes = yieldThen === null ? "" : `, which makes a dry yield of ${percent(yieldThen)}${judged(yieldThen)}`;
  return `The two weights were exchanged: ${other?.put} fresh in, ${put} dried out${makes}`;
}

const COUNTS_AS_IS = new Set([
  "out-more-than-in",
  "unit-slip-suspected",
  "dried-is-zero",
  "row-too-wide",
  "row-cut-short",
]);

/** What "as written" means for a doubt: the value counts, or the row counts without it. */
export function standsInWords(reasons: readonly Pick<Problem, "code" | "text">[]): string {
  const texts = reasons.flatMap(({ text }) => (text === "" ? [] : [`“${text}”`]));
  const many = texts.length > 1;
  const what = texts.length === 0 ? "It stands" : `${listInWords(texts)} ${many ? "stand" : "stands"}`;
  return reasons.every(({ code }) => COUNTS_AS_IS.has(code))
    ? `${what} as written, and ${many ? "count" : "counts"} so, with a flag`
    : `${what} as written: the row counts without ${many ? "them" : "it"}, with a flag`;
}

/** The yield that follows where both weights stand. */
function asIs({ batch }: RowRead, reasons: readonly Problem[]): string {
  const [fresh, dried] = [batch?.fresh?.value ?? 0, batch?.dried?.value ?? null];
  if (dried === null || fresh <= 0 || !reasons.every(({ code }) => COUNTS_AS_IS.has(code))) return "";
  return `: a dry yield of ${percent(dried / fresh)}${judged(dried / fresh)}`;
}

function isOfFuel(row: RowRead, reasons: readonly Problem[]): boolean {
  return reasons.some(
    ({ code, at }) =>
      code === "container-without-weight" && !["fresh", "dried"].includes(meaningAt(row, at.column) ?? ""),
  );
}

function meaningAt(row: RowRead, column: string | null): Meaning | null {
  return row.cells.find((cell) => cell.column === column)?.meaning ?? null;
}

function rounded(value: number): string {
  return Number(value.toPrecision(2)).toLocaleString("en-GB");
}

function percent(share: number): string {
  return `${(share * 100).toFixed(0)} %`;
}
