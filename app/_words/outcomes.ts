import type { Outcome } from "#server/terms/look";
import type { FileQuestion } from "#server/terms/row";
import { counted, dayInWords } from "./days";

/** What would follow from one answer to a question about the log, in figures; empty where nothing was worked out. */
export function outcomeInWords(outcome: Outcome | undefined): string {
  if (outcome === undefined) return "";
  const { assumes, counted: rows, held, dryYield, usualFreshKg, from, to } = outcome;
  if (rows === 0)
    return `${assumes ? "also once the rest is answered, " : ""}no row would count yet, ${counted(held, "row", "rows")} would still need an answer`;
  const parts = [
    `${assumes ? "once the rest is answered too, " : ""}${counted(rows, "row", "rows")} would count${held === 0 ? "" : `, ${held} would need an answer`}`,
  ];
  if (dryYield !== null) parts.push(`a dry yield of ${percent(dryYield)}${judged(dryYield)}`);
  if (usualFreshKg !== null) parts.push(`a usual load of ${rounded(usualFreshKg)} kg`);
  if (from !== null && to !== null)
    parts.push(from === to ? `all on ${dayInWords(from)}` : `from ${dayInWords(from)} to ${dayInWords(to)}`);
  return parts.join("; ");
}

/** The outcome of one choice of a question. */
export function outcomeOf(
  outcomes: readonly Outcome[],
  { code, sheet, column }: FileQuestion,
  choice: string,
): Outcome | undefined {
  return outcomes.find(
    (one) => one.code === code && one.sheet === sheet && one.column === column && one.choice === choice,
  );
}

function judged(share: number): string {
  if (share > 1) return ", more than went in, which cannot be";
  return share > 0.5 || share < 0.2 ? ", which is unusual" : "";
}

function rounded(value: number): string {
  return Number(value.toPrecision(3)).toLocaleString("en-GB");
}

function percent(share: number): string {
  return `${(share * 100).toFixed(0)} %`;
}
