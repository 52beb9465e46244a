import type { Api } from "#seed/load";
import { daysOfMonth } from "#server/terms/days";
import type { Finder } from "./loaded";

/**
 * Published months of which a weight became another, while what was published still works out to the same bytes.
 *
 * A weight that only came later, such as one of the next morning, rests on more than before and corrects nothing.
 */
export const correctedLater: Finder = async ({ demo, api }) => {
  const { differences } = await api.ledger.verify();
  if (differences.length > 0) return [];
  const found = [];
  for (const { site, month, at } of demo.publications) {
    const [published] = await api.figures.published({ site, month });
    if (published === undefined) continue;
    const then = await weights(api, site, month, at);
    if (!isCorrected(then, await weights(api, site, month, null))) continue;
    const later = (await api.logs.list({ site })).map(({ arrivedAt }) => arrivedAt).filter((time) => time > at);
    for (const asOf of later.sort()) {
      if (!isCorrected(then, await weights(api, site, month, asOf))) continue;
      found.push({ site, on: daysOfMonth(month).from, told: asOf });
      break;
    }
  }
  return found;
};

async function weights(api: Api, site: string, month: string, asOf: string | null) {
  const span = { site, from: month, to: month };
  const months = await api.figures.site(asOf === null ? span : { ...span, asOf });
  return months.flatMap(({ figures: { fresh, dried } }) => [fresh, dried]);
}

type Weights = Awaited<ReturnType<typeof weights>>;

function isCorrected(then: Weights, now: Weights): boolean {
  return then.some((figure, at) => {
    const other = now[at];
    if (!figure.known || other === undefined || !other.known) return false;
    return figure.restsOn.used === other.restsOn.used && figure.value !== other.value;
  });
}
