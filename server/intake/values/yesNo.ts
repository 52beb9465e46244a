import type { TestResult } from "#server/terms/batch";
import type { Cell } from "#server/terms/grid";
import { plain } from "#server/terms/headings/plain";
import { FAIL, isAbsent, NO, PASS, YES } from "./words";

/** What a cell says of a test; null for a word that says neither. */
export function readTest(cell: Cell): TestResult | null {
  const text = cell.text.trim();
  if (isAbsent(text)) return "not-tested";
  const words = plain(text);
  if (FAIL.has(words)) return "fail";
  return PASS.has(words) || /^[✓✔+vx]$/i.test(text) ? "pass" : null;
}

/** Yes or no, nothing being no; null for a word that says neither. */
export function readYes(cell: Cell): boolean | null {
  const text = cell.text.trim();
  const words = plain(text);
  if (text === "" || NO.has(words) || /^[-–—]$/.test(text)) return false;
  return YES.has(words) || /^[✓✔vx]$/i.test(text) ? true : null;
}
