import { normalQuantile } from "#server/statistics/normal";
import { studentQuantile } from "#server/statistics/student";
import { type Beforehand, knownBeforehand, type Variance } from "./moderation";
import { laneyFactor } from "./proportionsChart";

/** What was owed in a month and what of it is missing. */
export interface OwedMonth {
  readonly month: string;
  readonly owed: number;
  readonly missing: number;
}

/** A month with clearly more missing than the months before it. */
export interface IncompleteMonth {
  readonly month: string;
  readonly share: number;
  /** share of the months before, and the share up to which nothing would have been said */
  readonly usual: number;
  readonly limit: number;
  /** how much the site's months before it differ against what chance alone gives, as a variance; 0: nothing tells it */
  readonly differ: number;
}

/** A month of a site's record as a chart shows it; no usual and no limit while there are too few months before it. */
export interface JudgedMonth {
  readonly month: string;
  readonly share: number;
  readonly usual: number | null;
  readonly limit: number | null;
  readonly differ: number | null;
  readonly told: boolean;
}

/** Months before the first that can be judged. */
const FEWEST_MONTHS = 6;
/** sites whose months must be known before they say anything about another's */
const FEWEST_SITES = 6;
/** a mean of neighbours' distances tells a spread as well as so many squared deviations for each of them */
const WORTH_OF_A_DISTANCE = 0.62;
const NOTHING_KNOWN: Beforehand = { d0: 0, s02: 0 };

/**
 * Months in which more is missing than the site's own earlier months lead to expect, in the order given.
 *
 * One-sided: nobody is asked why nothing is missing. Limits widen with how much the site's months differ (Laney), and with
 * how few they are; `chance` is that of a false one in a month. A month that was told does not count as usual after.
 *
 * One point a month and site, a kind of stream of its own: of a programme's accepted false alarms it takes `RECORD_SHARE`, so
 * `chance` is accepted × RECORD_SHARE / sites. Over all sites of a programme give `beforehand`, what their months before
 * lead to expect of one site's (`monthsBeforehand`): limits of young sites are then far narrower, and the chance is kept.
 */
export function incompleteMonths(
  months: readonly OwedMonth[],
  chance: number,
  beforehand: Beforehand = NOTHING_KNOWN,
): IncompleteMonth[] {
  return judgedMonths(months, chance, beforehand).flatMap(({ month, share, usual, limit, differ, told }) =>
    told && usual !== null && limit !== null && differ !== null ? [{ month, share, usual, limit, differ }] : [],
  );
}

/** Every month in which anything was owed, with what it was held against: what a chart of the record shows. */
export function judgedMonths(
  months: readonly OwedMonth[],
  chance: number,
  beforehand: Beforehand = NOTHING_KNOWN,
): JudgedMonth[] {
  const usual: OwedMonth[] = [];
  return months.flatMap((one) => {
    if (one.owed <= 0) return [];
    const share = one.missing / one.owed;
    const held = usual.length < FEWEST_MONTHS ? null : heldAgainst(usual, one.owed, chance, beforehand);
    const told = held !== null && share > held.limit;
    if (!told) usual.push(one);
    const { usual: of, limit, differ } = held ?? { usual: null, limit: null, differ: null };
    return [{ month: one.month, share, usual: of, limit, differ, told }];
  });
}

/**
 * What the records of a programme's sites lead to expect of how much one site's months differ; nothing with fewer than
 * six sites that have six months. Give each site's months from before the month that is judged.
 */
export function monthsBeforehand(sites: readonly (readonly OwedMonth[])[]): Beforehand {
  const variances = sites.flatMap((months) => {
    const owing = months.filter(({ owed }) => owed > 0);
    const one = owing.length < FEWEST_MONTHS ? null : varianceOf(owing);
    return one === null || one.variance === 0 ? [] : [one];
  });
  return variances.length < FEWEST_SITES ? NOTHING_KNOWN : knownBeforehand(variances);
}

/** How much months differ against what chance alone gives, as a variance: 1 is chance alone. */
function varianceOf(months: readonly OwedMonth[]): Variance | null {
  const factor = laneyFactor(
    months.map(({ missing }) => missing),
    months.map(({ owed }) => owed),
  );
  return factor === null ? null : { variance: factor ** 2, degrees: WORTH_OF_A_DISTANCE * (months.length - 1) };
}

/** How much a site's months differ against what chance alone gives, moderated by what is known beforehand. */
function spreadOf(before: readonly OwedMonth[], { d0, s02 }: Beforehand): Variance {
  const own = varianceOf(before) ?? { variance: 0, degrees: 0 };
  const degrees = d0 + own.degrees;
  return { variance: degrees > 0 ? (d0 * s02 + own.degrees * own.variance) / degrees : 0, degrees };
}

/**
 * The usual share and the one up to which nothing is said, on the scale on which shares have equal spread (Anscombe 1948),
 * half a batch being given: so a site that never misses any is not asked about its first.
 *
 * Never narrower than chance alone; where the months differ by more, what few of them tell is Student's t.
 */
function heldAgainst(
  before: readonly OwedMonth[],
  owed: number,
  chance: number,
  beforehand: Beforehand,
): { usual: number; limit: number; differ: number } {
  const owedBefore = before.reduce((sum, one) => sum + one.owed, 0);
  const missing = before.reduce((sum, one) => sum + one.missing, 0);
  const { variance, degrees } = spreadOf(before, beforehand);
  const alone = -normalQuantile(chance);
  const widths = degrees > 0 ? Math.max(alone, -studentQuantile(chance, degrees) * Math.sqrt(variance)) : alone;
  const usual = Math.asin(Math.sqrt((missing + 0.375) / (owedBefore + 0.75)));
  const half = (widths * Math.sqrt(1 / (owed + 0.5) + 1 / (owedBefore + 0.5))) / 2;
  const highest = Math.sin(Math.min(Math.PI / 2, usual + half)) ** 2;
  const limit = Math.min(1, (highest * (owed + 0.75) - 0.375 + 0.5) / owed);
  return { usual: missing / owedBefore, limit, differ: variance };
}
