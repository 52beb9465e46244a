import type { Cell } from "#server/terms/grid";

/** So many different texts of one column are remembered; a column of more is one of names. */
const MOST = 4000;

/** A reader that remembers what it made of a text: in one column the same text always says the same. */
export function remembered<T>(read: (cell: Cell) => T): (cell: Cell) => T {
  const texts = new Map<string, T>();
  const numbers = new Map<number, T>();
  return (cell) => {
    const { kind, text, value } = cell;
    if (kind === "text") return recall(texts, text, cell);
    return kind === "number" && value !== null ? recall(numbers, value, cell) : read(cell);
  };

  function recall<Key>(seen: Map<Key, T>, key: Key, cell: Cell): T {
    const known = seen.get(key);
    if (known !== undefined) return known;
    const made = read(cell);
    if (seen.size < MOST) seen.set(key, made);
    return made;
  }
}
