import { sum } from "#server/statistics/sum";

/** One site's month, as far as a sentence about the whole programme needs it. */
export interface SiteInMonth {
  readonly site: number;
  /** true where the site owed a log: it was open, and had not filed that nothing was produced */
  readonly owedLog: boolean;
  readonly sentLog: boolean;
  readonly filedNothing: boolean;
  /** null where nothing was weighed */
  readonly freshKg: number | null;
  readonly driedKg: number | null;
  /** it sent something, and its main figures rest on too little to tell */
  readonly tooFew: boolean;
}

/** A month of the programme in numbers: what its opening sentence says. */
export interface ProgrammeMonth {
  readonly sites: number;
  readonly owing: number;
  /** of those that owed */
  readonly sent: number;
  readonly filedNothing: number;
  readonly freshKg: number | null;
  readonly driedKg: number | null;
  readonly tooFew: readonly number[];
  /** owed a log and sent none */
  readonly silent: readonly number[];
}

/**
 * Adds up a month over its sites. A site that sent although it owed nothing counts with what it sent, not among those owed.
 *
 * Masses are unknown only where no site weighed anything.
 */
export function programmeMonth(given: readonly SiteInMonth[]): ProgrammeMonth {
  const sites = [...given].sort((a, b) => a.site - b.site);
  const owing = sites.filter(({ owedLog }) => owedLog);
  const ids = (chosen: (site: SiteInMonth) => boolean) => sites.filter(chosen).map(({ site }) => site);
  return {
    sites: sites.length,
    owing: owing.length,
    sent: owing.filter(({ sentLog }) => sentLog).length,
    filedNothing: sites.filter(({ filedNothing }) => filedNothing).length,
    freshKg: total(sites.map(({ freshKg }) => freshKg)),
    driedKg: total(sites.map(({ driedKg }) => driedKg)),
    tooFew: ids(({ tooFew }) => tooFew),
    silent: ids(({ owedLog, sentLog }) => owedLog && !sentLog),
  };
}

function total(kg: readonly (number | null)[]): number | null {
  const known = kg.filter((one) => one !== null);
  return known.length === 0 ? null : sum(known);
}
