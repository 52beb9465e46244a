import type { Fault } from "#server/terms/fault";
import type { RowOnGrid } from "#server/terms/row";
import { placeOf } from "./loads";

/** Cylinders that weigh more after than before: another one was put on in between, so only the change tells. */
export function cylinderGained(sheet: string, rows: readonly RowOnGrid[]): Fault[] {
  const gained = rows.flatMap((row) =>
    row.fuel.flatMap(({ said }) =>
      said.kind === "gross" && said.before !== null && said.after !== null && said.after.value > said.before.value
        ? [{ row, before: said.before.value, after: said.after.value }]
        : [],
    ),
  );
  const [first] = gained;
  if (first === undefined) return [];
  return [
    {
      code: "cylinder-gained",
      evidence: { rows: gained.length, beforeKg: first.before, afterKg: first.after },
      sheet,
      rows: gained.map(({ row }) => row.row),
      yieldNow: null,
      yieldThen: null,
      answers: null,
    },
  ];
}

/** The year that the text of a day says; two figures are of this century. */
function writtenYear(text: string): number | null {
  const four = /(?<!\d)\d{4}(?!\d)/.exec(text);
  if (four !== null) return Number(four[0]);
  const two = /[-/.\s](\d{2})$/.exec(text.trim());
  return two === null ? null : 2000 + Number(two[1]);
}

/** Days outside the period that lie in it in another year: proposed together for each year that was written. */
export function yearsMistyped(sheet: string, rows: readonly RowOnGrid[]): Fault[] {
  const found = new Map<string, { row: number; place: string; put: string }[]>();
  for (const row of rows) {
    for (const { code, at, text, choices } of row.reasons) {
      const [choice] = choices ?? [];
      const year = code === "day-outside-period" ? writtenYear(text) : null;
      if (choice === undefined || year === null || at.column === null) continue;
      if (Number(choice.put.slice(0, 4)) === year) continue; // the day as it stands, and no other
      const key = `${year} ${choice.put.slice(0, 4)}`;
      const same = found.get(key) ?? [];
      same.push({ row: row.row, place: placeOf(row, at.column), put: choice.put });
      found.set(key, same);
    }
  }
  return [...found].map(([key, cells]): Fault => {
    const [written = 0, proposed = 0] = key.split(" ").map(Number);
    return {
      code: "year-mistyped",
      evidence: { rows: cells.length, written, proposed },
      sheet,
      rows: cells.map(({ row }) => row),
      yieldNow: null,
      yieldThen: null,
      answers: { cells: Object.fromEntries(cells.map(({ place, put }) => [place, put])) },
    };
  });
}
