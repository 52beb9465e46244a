import { FUELS, type Fuel } from "#server/terms/fuel";
import type { ColumnRead, Meaning } from "#server/terms/row";

/** A column while it is being read: what the reader is told, its position, and what else it could have meant. */
export interface Column extends ColumnRead {
  readonly index: number;
  /** for a column that is asked about: what it could be */
  readonly candidates: readonly Meaning[];
  /** measures whose bare numbers have no unit */
  readonly unitUnknown: boolean;
}

/** A row without these is no batch; a column that may be one of them and is not understood holds its rows. */
export const NEEDED: ReadonlySet<Meaning> = new Set(["day", "fresh", "dried"]);
export const MASSES: ReadonlySet<Meaning> = new Set(["fresh", "dried", "rejects", "sand-kg", "packed", "waste-in"]);
export const FUEL_MEANINGS: ReadonlySet<Meaning> = new Set<Meaning>([...FUELS, "fuel-amount"]);
export const CYLINDERS: ReadonlySet<Meaning> = new Set(["cylinder-before", "cylinder-after"]);
/** Read as numbers that a decimal mark can make ambiguous. */
export const NUMBERS: ReadonlySet<Meaning> = new Set<Meaning>([
  ...MASSES,
  ...FUEL_MEANINGS,
  ...CYLINDERS,
  "minutes",
  "moisture-in",
  "moisture-out",
  "water-activity",
]);
/** May name a person or says what we do not read: the sealed store keeps them. */
export const SEALED: ReadonlySet<Meaning> = new Set(["operator", "labour", "remarks"]);

/** A column that was recognised and is no secret: its cells are read. */
export interface ReadColumn extends Column {
  readonly meaning: Meaning;
}

export function isRead(column: Column): column is ReadColumn {
  return column.meaning !== null && !SEALED.has(column.meaning);
}

export function isFuel(meaning: Meaning): meaning is Fuel {
  return FUELS.some((fuel) => fuel === meaning);
}
