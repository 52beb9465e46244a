/** Rows that a page shows at once. A few more are shown together rather than cut into a long part and a stub. */
const AT_ONCE = 40;

/** A long list cut into parts whose lengths differ by one at most. */
export function inParts<T>(rows: readonly T[]): (readonly T[])[] {
  const count = Math.max(1, Math.round(rows.length / AT_ONCE));
  const from = (part: number) => Math.round((part * rows.length) / count);
  return Array.from({ length: count }, (_, part) => rows.slice(from(part), from(part + 1)));
}
