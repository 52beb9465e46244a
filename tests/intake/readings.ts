import { readFileSync } from "node:fs";
import { isUnreadable, readGrid } from "#server/intake/grid/readGrid";
import { RowOfCells } from "#server/intake/grid/rowOfCells";
import { handedOver } from "#server/intake/handedOver";
import { readLog } from "#server/intake/readLog";
import type { Cell, Grid } from "#server/terms/grid";
import type { Hints, Reading, ReadingOnGrid, RowOnGrid } from "#server/terms/row";

const BOUNDS = {
  bytes: 10_000_000,
  unpackedBytes: 60_000_000,
  rows: 200_000,
  columns: 512,
  cellCharacters: 32_767,
  sheets: 50,
};

/** Reads a log of tests/files/logs through the same door as any other. */
export function readFile(name: string, hints: Hints = { period: "2031-06" }): Reading {
  const grid = readGrid(readFileSync(`tests/files/logs/${name}`), name, BOUNDS);
  if (isUnreadable(grid)) throw new Error(`${name} is refused as ${grid.refused}`);
  return readAll(grid, hints);
}

/** What a grid says, with its rows as they leave it. */
export function readAll(grid: Grid, hints: Hints): Reading {
  const reading = readLog(grid, hints);
  return { ...reading, rows: handedOver(reading.rows) };
}

/** A grid of one sheet, "Log", from lines whose cells are parted by "|". */
export function gridOf(...lines: readonly string[]): Grid {
  return { format: "delimited", sheets: [sheetOf("Log", ...lines)], notes: [] };
}

export function sheetOf(name: string, ...lines: readonly string[]): Grid["sheets"][number] {
  const cellOf = (text: string): Cell => ({ text, kind: text === "" ? "blank" : "text", value: null });
  const cells = (line: string) => line.split("|").map((part) => cellOf(part.trim()));
  const rows = lines.map((line, at) => new RowOfCells(at + 1, cells(line)));
  return { name, hidden: false, rows };
}

export function readLines(hints: Hints, ...lines: readonly string[]): Reading {
  return readAll(gridOf(...lines), hints);
}

/** A row in one line: "5 counted 2031-06-03 #001 10>3.3 95min | midnight-crossed". */
export function line({ row, fate, day, batch, reasons, driedOnly, fuel }: RowOnGrid): string {
  const parts = [String(row), fate];
  if (batch !== null) {
    parts.push(batch.day);
    if (batch.number !== null) parts.push(`#${batch.number}`);
    if (batch.pan !== null) parts.push(`pan ${batch.pan}`);
    parts.push(`${batch.fresh?.exact ?? "?"}>${batch.dried?.exact ?? "?"}`);
    if (batch.minutes !== null) parts.push(`${batch.minutes.exact}min`);
    if (batch.grain !== "load") parts.push(`${batch.grain} of ${batch.loads}`);
    if (driedOnly) parts.push("dried only");
  }
  for (const { fuel: name, said } of fuel) {
    if (said.kind === "amount") parts.push(`${day} ${name} ${said.amount.exact}${said.unit}`);
    if (said.kind === "cylinder-change") parts.push(`${day} ${name} cylinder x${said.count}`);
    if (said.kind === "gross")
      parts.push(`${day} ${name} gross ${said.before?.exact ?? "?"}>${said.after?.exact ?? "?"}`);
  }
  const codes = reasons.map(({ code }) => code);
  return codes.length === 0 ? parts.join(" ") : `${parts.join(" ")} | ${codes.join(" ")}`;
}

export function lines(reading: ReadingOnGrid): string[] {
  return reading.rows.map(line);
}

/** What each column was taken for: "A day", "C fresh kg". */
export function columns(reading: Reading): string[] {
  return reading.tables.flatMap((table) =>
    table.columns.map(({ column, meaning, unit }) =>
      [column, meaning ?? "-", unit].filter((part) => part !== null).join(" "),
    ),
  );
}
