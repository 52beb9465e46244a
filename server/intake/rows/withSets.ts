import type { BatchWritten, Quantity } from "#server/terms/batch";
import { holds, type Problem, type ProblemCode } from "#server/terms/problem";
import type { Answers, RowOnGrid } from "#server/terms/row";
import { plus, quantity } from "../values/exact";
import { setsPlainlySaid } from "./setsPlain";

/** What is said of one load alone and no longer holds once its weight is that of several. */
const OF_ONE_LOAD: ReadonlySet<ProblemCode> = new Set<ProblemCode>([
  "out-more-than-in",
  "unit-slip-suspected",
  "yield-unusual",
  "dried-to-come",
  "dried-missing",
  "fresh-missing",
]);

/**
 * Makes one batch of loads whose dried weight was weighed together, where the log plainly says so or a person has: it
 * stands in the row with the weight, as a set with all loads, fresh weights and minutes. The other rows count with it.
 */
export function withSets(rows: readonly RowOnGrid[], answers: Answers | undefined): readonly RowOnGrid[] {
  const sets = [...setsPlainlySaid(rows), ...setsAnswered(rows, answers?.together ?? [])];
  if (sets.length === 0) return rows;
  const kept = [...rows];
  const taken = new Set<number>();
  for (const set of sets) {
    if (set.some((at) => taken.has(at))) continue;
    const made = madeSet(set.flatMap((at) => rows[at] ?? []));
    if (made === null) continue;
    set.forEach((at, position) => {
      taken.add(at);
      const row = made[position];
      if (row !== undefined) kept[at] = row;
    });
  }
  return kept;
}

function setsAnswered(rows: readonly RowOnGrid[], together: NonNullable<Answers["together"]>): number[][] {
  if (together.length === 0) return [];
  const places = new Map(rows.map(({ sheet, row }, at) => [`${sheet}!${row}`, at]));
  return together
    .map((names) => names.flatMap((name) => places.get(name) ?? []))
    .filter((set, at) => set.length > 1 && set.length === together[at]?.length);
}

/** The rows of a set in the order given, or null where a fresh weight or the dried one is not known. */
function madeSet([holder, ...others]: readonly RowOnGrid[]): RowOnGrid[] | null {
  if (holder?.batch?.dried == null || others.length === 0) return null;
  const loads = [...(holder.driedOnly ? [] : [holder]), ...others].sort((a, b) => a.row - b.row);
  const members = loads.flatMap(({ batch }) => batch ?? []).sort(byTime);
  const [first] = members;
  const fresh = sumOf(members.map((batch) => batch.fresh));
  if (first === undefined || fresh === null || members.length < loads.length) return null;
  const batch: BatchWritten = {
    ...first,
    number: holder.driedOnly ? holder.batch.number : namesOf(members),
    grain: first.grain === "load" ? "set" : first.grain,
    loads: members.reduce((sum, one) => sum + one.loads, 0),
    fresh,
    dried: holder.batch.dried,
    driedToCome: false,
    minutes: sumOf(members.map((one) => one.minutes)),
    endMinute: members[members.length - 1]?.endMinute ?? null,
  };
  const at = { sheet: holder.sheet, row: holder.row };
  return [
    withReasons({ ...holder, batch, driedOnly: false }),
    ...others.map((row) => withReasons({ ...row, batch: null, countsWith: at })),
  ];
}

/** By day and start; loads that say neither stay in the order of their rows. */
function byTime(a: BatchWritten, b: BatchWritten): number {
  return a.day < b.day ? -1 : a.day > b.day ? 1 : (a.startMinute ?? 0) - (b.startMinute ?? 0);
}

/** The row without reasons that spoke of one load alone, and with the remark that it was weighed together. */
function withReasons(row: RowOnGrid): RowOnGrid {
  const remark: Problem = {
    code: "weighed-together",
    at: { sheet: row.sheet, row: row.row, column: null },
    text: row.countsWith === undefined ? "" : String(row.countsWith.row),
  };
  const reasons = [...row.reasons.filter(({ code }) => !OF_ONE_LOAD.has(code)), remark];
  return { ...row, reasons, fate: reasons.some(({ code }) => holds(code)) ? "held" : "counted" };
}

function namesOf(members: readonly BatchWritten[]): string | null {
  const numbers = members.map(({ number }) => number);
  return numbers.every((number) => number !== null) ? numbers.join("+") : null;
}

function sumOf(parts: readonly (Quantity | null)[]): Quantity | null {
  let exact = "0";
  for (const part of parts) {
    if (part === null) return null;
    exact = plus(exact, part.exact);
  }
  return parts.length === 0 ? null : quantity(exact);
}
