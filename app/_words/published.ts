import type { SincePublished } from "#server/evidence/sincePublished";
import { METHODS } from "#server/terms/batch";
import type { Figure } from "#server/terms/figure";
import { counted, dayInWords } from "./days";
import { figureInWords, valueInWords } from "./figures";
import { MEASURE_WORDS } from "./measures";
import { METHOD_WORDS } from "./methods";

interface Published {
  readonly publishedAt: string | null;
  readonly ledgerIndex: number;
}

/** "As known today", "As known on 12 Feb 2026", "As known with 92 records": what an address asks for. */
export function knownInWords(known: string | null | undefined): string {
  if (known === null || known === undefined) return "As known today";
  const [, records] = /^record-(\d+)$/.exec(known) ?? [];
  return records === undefined
    ? `As known on ${dayInWords(known)}`
    : `As known with ${counted(Number(records), "record")}`;
}

/** "12 Feb 2026 (record 93)". */
export function whenPublished({ publishedAt, ledgerIndex }: Published): string {
  return publishedAt === null
    ? `record ${ledgerIndex}`
    : `${dayInWords(publishedAt.slice(0, 10))} (record ${ledgerIndex})`;
}

/** One sentence on a month that was published: that it stands, or how many of its figures are known otherwise. */
export function publishedInWords(published: Published, differing: number, known: string | null): string {
  if (differing === 0) return `The figures are as published on ${whenPublished(published)}.`;
  const verb = differing === 1 ? "differs" : "differ";
  const since = known === null ? "known today" : "known then";
  return `Published on ${whenPublished(published)}: ${counted(differing, "figure")} ${verb} from what is ${since}.`;
}

/** "Dry yield: published 31.4 %; as known today 30.9 %", with what differs beyond the value where the value is the same. */
export function sincePublishedInWords({ method, measure, published, now }: SincePublished, known: string | null) {
  const [, words] = Object.entries(MEASURE_WORDS).find(([name]) => name === measure) ?? [];
  const dryer = METHODS.find((one) => one === method);
  const short = [published, now].map(shortly);
  const [was, is] = short[0] === short[1] ? [published, now].map(wholly) : short;
  return {
    name: words?.name ?? measure,
    dryer: dryer === undefined ? null : METHOD_WORDS[dryer],
    says:
      was === is
        ? `${was}, in digits beyond those shown`
        : `published ${was}; ${known === null ? "as known today" : "as known then"} ${is}`,
  };
}

function shortly(figure: Figure | null): string {
  if (figure === null) return "none by this dryer";
  return figure.known ? valueInWords(figure.value, figure.unit) : wholly(figure);
}

function wholly(figure: Figure | null): string {
  return figure === null ? "none by this dryer" : figureInWords(figure);
}

/** How many published months stand as published, in a sentence. */
export function monthsPublishedInWords(months: readonly { readonly differs: number }[], more: boolean): string {
  if (months.length === 0) return "Nothing of these months was published.";
  const differing = months.filter(({ differs }) => differs > 0).length;
  const which = more
    ? `Of the ${months.length} months published last`
    : `Of ${counted(months.length, "month")} published`;
  if (differing === 0) return `${which}, every one stands as it was published.`;
  const standing = months.length - differing;
  const stand = standing === 0 ? "none stands" : `${standing} ${standing === 1 ? "stands" : "stand"}`;
  return `${which}, ${stand} as published; ${differing} ${differing === 1 ? "is" : "are"} known otherwise by now:`;
}
