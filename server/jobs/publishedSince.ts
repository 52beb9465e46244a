import { lastPublications, type PublishedRow } from "#db/queries/publications";
import type { Site } from "#db/queries/sites";
import type { Tx } from "#db/store";
import { type SincePublished, sincePublished } from "#server/evidence/sincePublished";
import { daysOfMonth } from "#server/terms/days";
import type { AsKnownOn } from "#server/terms/figure";
import { figuresOf } from "./figures";

/** A site's month as it was published last, and the figures that are known otherwise by now. */
export interface PublishedSince {
  readonly site: string;
  readonly month: string;
  readonly publishedAt: string | null;
  /** record of the publication, and how many records it was worked out from */
  readonly ledgerIndex: number;
  readonly knownSize: number;
  /** the edition that was published, where another one works out the figures now */
  readonly otherEdition: string | null;
  readonly differs: readonly SincePublished[];
}

interface Months {
  readonly from: string;
  readonly to: string;
}

/** Of each month the publication that stands, newest first; `more` when there are others beyond `most`. */
export async function standingPublications(
  tx: Tx,
  sites: readonly Site[],
  { from, to }: Months,
  size: number,
  most: number,
): Promise<{ readonly rows: readonly PublishedRow[]; readonly more: boolean }> {
  const days = { from: daysOfMonth(from).from, to: daysOfMonth(to).to };
  const rows = await lastPublications(tx, { sites: sites.map(({ id }) => id), whole: false, ...days, size }, most + 1);
  return { rows: rows.slice(0, most), more: rows.length > most };
}

/** Lays publications of one site beside what is known of their months. */
export async function publishedSince(
  tx: Tx,
  site: Site,
  rows: readonly PublishedRow[],
  known: AsKnownOn,
): Promise<PublishedSince[]> {
  const months = rows.map(({ month }) => month).sort();
  const [first, last] = [months[0], months.at(-1)];
  if (first === undefined || last === undefined) return [];
  const now = await figuresOf(tx, site, first, last, known);
  return rows.map(({ month, edition, publishedAt, ledgerIndex, knownSize, figures }) => {
    const here = now.filter((one) => one.month === month);
    const editionNow = here[0]?.figures["dry-yield"].edition ?? edition;
    return {
      site: site.code,
      month,
      publishedAt,
      ledgerIndex,
      knownSize,
      otherEdition: editionNow === edition ? null : edition,
      differs: sincePublished(figures, here),
    };
  });
}
