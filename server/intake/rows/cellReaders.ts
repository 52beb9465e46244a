import type { Quantity, TestResult } from "#server/terms/batch";
import type { Cell, GridRow } from "#server/terms/grid";
import type { CellRead, Hints } from "#server/terms/row";
import type { Column, ReadColumn } from "../columns/column";
import { type ClockRead, readClock } from "../values/clocks";
import type { Mark } from "../values/decimals";
import { type MassRead, type Measure, readMass } from "../values/masses";
import { readMeter } from "../values/meters";
import { type MinutesMeasure, type MinutesRead, readMinutes } from "../values/minutes";
import { Remembered, type Told } from "../values/remembered";
import { isAbsent } from "../values/words";
import { readTest, readYes } from "../values/yesNo";
import type { DayRead } from "./dayCells";
import { type AmountRead, readAmount } from "./fuelAmount";
import type { RowAtHand } from "./table";

type Reader<T> = (column: Column, row: RowAtHand) => T;

/**
 * The readers of a table's columns. They remember what they have read, so that the few texts that most columns repeat
 * are taken apart once and the rows share what came of it.
 */
export interface CellReaders {
  readonly mass: Reader<MassRead>;
  readonly amount: Reader<AmountRead>;
  readonly duration: Reader<MinutesRead>;
  readonly clock: Reader<ClockRead>;
  readonly test: Reader<TestResult | null>;
  readonly yes: Reader<boolean | null>;
  readonly text: Reader<string | null>;
  /** reads the day of whichever column has the days */
  readonly day: Reader<DayRead>;
  readonly meter: Reader<Quantity | null | "unread">;
  /** what a row keeps of a cell; null for one that says nothing */
  readonly said: (column: ReadColumn, raw: GridRow) => CellRead | null;
}

/** What a row keeps of a cell in a column that is read. */
function cellSaid({ column, meaning }: ReadColumn, { kind, text }: Cell): CellRead | null {
  return kind === "blank" ? null : { column, meaning, text };
}

export function cellReaders(hints: Hints, days: Remembered<DayRead>): CellReaders {
  const said = memories((column: ReadColumn) => (cell: Cell) => cellSaid(column, cell));
  return {
    mass: perColumn((column) => {
      const measure = measureOf(column, hints, column.decimalMark);
      return (cell) => readMass(cell, measure);
    }),
    amount: perColumn((column) => (cell) => readAmount(cell, column, column.decimalMark, hints)),
    duration: perColumn((column) => {
      const measure = durationOf(column, column.decimalMark);
      return (cell) => readMinutes(cell, measure);
    }),
    clock: perColumn(() => readClock),
    test: perColumn(() => readTest),
    yes: perColumn(() => readYes),
    text: perColumn(
      () =>
        ({ text }) =>
          textOf(text),
    ),
    day: (column, row) => readIn(row, column, days),
    meter: perColumn((column) => (cell) => readMeter(cell, column.decimalMark, column.meaning === "moisture-out")),
    said: (column, raw) => said(column).at(raw, column.index),
  };
}

function perColumn<T extends Told>(readerOf: (column: Column) => (cell: Cell) => T): Reader<T> {
  const memory = memories(readerOf);
  return (column, row) => readIn(row, column, memory(column));
}

/** One memory for each column, made when it is first needed. */
function memories<T extends Told, C extends Column>(readerOf: (column: C) => (cell: Cell) => T) {
  const made: Remembered<T>[] = [];
  return (column: C): Remembered<T> => {
    let memory = made[column.index];
    if (memory === undefined) {
      memory = new Remembered(readerOf(column));
      made[column.index] = memory;
    }
    return memory;
  };
}

/** What a cell of a row says, or what stands in its place. */
function readIn<T extends Told>({ raw, changed }: RowAtHand, { index }: Column, memory: Remembered<T>): T {
  const own = changed === null ? undefined : changed[index];
  return own === undefined ? memory.at(raw, index) : memory.of(own);
}

/** How the weights of a column are to be read, with a decimal mark of its own or of what a person has put in. */
export function measureOf({ unit, meaning }: Column, hints: Hints, mark: Mark | null): Measure {
  const weight = meaning === "fresh" || meaning === "dried" ? meaning : null;
  return { unit, mark, containers: hints.containers ?? {}, weight };
}

export function durationOf({ unit }: Column, mark: Mark | null): MinutesMeasure {
  return { unit: unit === "min" || unit === "h" || unit === "s" ? unit : null, mark };
}

/** Trimmed and otherwise as written; null when nothing is said. */
function textOf(text: string): string | null {
  const trimmed = text.trim();
  return isAbsent(trimmed) ? null : trimmed;
}
