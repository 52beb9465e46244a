import type { Method } from "#server/terms/batch";
import { daysOfMonth } from "#server/terms/days";
import type { Figure, NoFigure, Unit } from "#server/terms/figure";

/** One figure as a line of a table: what commands print as JSON and evidence tables hold. */
export interface FigureRow {
  readonly site: string;
  readonly method: Method | null;
  readonly measure: string;
  readonly from: string;
  readonly to: string;
  readonly value: number | null;
  readonly unit: Unit;
  /** why there is no value; null where there is one */
  readonly why: NoFigure | null;
  readonly used: number;
  readonly here: number;
  /** what was owed; null where nobody declared it */
  readonly expected: number | null;
  readonly of: string;
  readonly low: number | null;
  readonly high: number | null;
  readonly level: number | null;
  readonly missingLow: number | null;
  readonly missingHigh: number | null;
  readonly knownSize: number;
  readonly knownOn: string | null;
  readonly edition: string;
}

interface MonthOfFigures {
  readonly code: string;
  readonly month: string;
  readonly method: Method | null;
  readonly figures: Readonly<Record<string, Figure>>;
}

/** Figures as lines, in the order of months, methods and measures as given. */
export function rowsOfFigures(months: readonly MonthOfFigures[]): FigureRow[] {
  return months.flatMap(({ code, month, method, figures }) =>
    Object.entries(figures).map(([measure, figure]) => ({
      site: code,
      method,
      measure,
      ...daysOfMonth(month),
      ...cellsOf(figure),
    })),
  );
}

function cellsOf(figure: Figure): Omit<FigureRow, "site" | "method" | "measure" | "from" | "to"> {
  const { unit, restsOn, asKnownOn, edition } = figure;
  const interval = figure.known ? figure.interval : null;
  const range = figure.known ? figure.missingRange : null;
  return {
    value: figure.known ? figure.value : null,
    unit,
    why: figure.known ? null : figure.why,
    used: restsOn.used,
    here: restsOn.here,
    expected: restsOn.owed,
    of: restsOn.of,
    low: interval?.low ?? null,
    high: interval?.high ?? null,
    level: interval?.level ?? null,
    missingLow: range?.low ?? null,
    missingHigh: range?.high ?? null,
    knownSize: asKnownOn.ledgerSize,
    knownOn: asKnownOn.time,
    edition,
  };
}
