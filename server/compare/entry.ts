import type { Method } from "#server/terms/batch";
import type { FactValue } from "#server/terms/facts";
import type { Figure } from "#server/terms/figure";
import type { Fuel } from "#server/terms/fuel";

/** The measures by which sites are set side by side, in the order in which they are shown. */
export const COMPARED = [
  "dry-yield",
  "fuel-per-driven-off",
  "fresh-per-pan-hour",
  "minutes-per-kg",
  "record-usable",
] as const;
export type Compared = (typeof COMPARED)[number];

/** A figure with what a comparison needs of it besides. */
export interface Measured {
  readonly figure: Figure;
  /** standard error by days or fuel windows; null where there are too few of them */
  readonly se: number | null;
  /** days, or windows of fuel, that the figure was worked out from */
  readonly clusters: number;
  /** what it was divided by: kg fresh, kg driven off, pan-hours */
  readonly mass: number;
  /** share of what was owed that the figure could use; null where nobody declared what was owed */
  readonly usable: number | null;
}

/** What one site did by one drying method in a period. A site without any log has one entry all the same. */
export interface Entry {
  readonly site: number;
  readonly method: Method | null;
  /** main fuel, as declared */
  readonly fuel: Fuel | null;
  readonly freshWeighed: FactValue<"fresh-weighed"> | null;
  readonly driedWeighed: FactValue<"dried-weighed"> | null;
  readonly measured: Readonly<Record<Compared, Measured>>;
}
