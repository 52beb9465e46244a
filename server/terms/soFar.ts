/** What a reading of a part leaves for the next part of the same log: so that cut or whole a log reads the same. */
export interface SoFar {
  /** what holds for the rows below */
  readonly carried: {
    readonly day: { readonly day: string; readonly minute: number | null } | null;
    readonly site: string | null;
    readonly fuelType: string | null;
    readonly hasFilled: boolean;
  };
  /** sums by the index of their column, in billionths: since the table began, and since the last total in it */
  readonly sums: {
    readonly sinceStart: readonly (number | undefined)[];
    readonly sinceTotal: readonly (number | undefined)[];
    readonly loads: number;
  };
}
