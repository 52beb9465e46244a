import { knownOn, lockSite } from "#db/queries/ledger";
import type { Site } from "#db/queries/sites";
import { canonical, sha256 } from "#server/evidence/canonical";
import { EDITION } from "#server/terms/figure";
import { figuresOf } from "./figures";
import { newId } from "./newId";
import { type Corridor, record } from "./record";

export interface Published {
  readonly site: string;
  readonly month: string;
  readonly edition: string;
  readonly knownSize: number;
  readonly digest: string;
  readonly ledgerIndex: number;
}

/** Freezes a site's month as it is known now, with the edition that worked it out. */
export async function publish(corridor: Corridor, site: Site, month: string): Promise<Published> {
  return record<Published>(corridor, async (tx) => {
    await lockSite(tx, site.id);
    const known = await knownOn(tx, null);
    const figures = canonical(await figuresOf(tx, site, month, month, known));
    const digest = sha256(figures);
    const row = {
      id: newId(corridor.clock()),
      site: site.id,
      month,
      edition: EDITION,
      knownSize: known.ledgerSize,
      figures,
    };
    return {
      command: "publish",
      site: site.id,
      about: { month, edition: EDITION, digest },
      changes: { publications: [row] },
      answer: (ledgerIndex) => ({
        site: site.code,
        month,
        edition: EDITION,
        knownSize: known.ledgerSize,
        digest,
        ledgerIndex,
      }),
    };
  });
}
