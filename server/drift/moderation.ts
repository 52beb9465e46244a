import { mean, standardDeviation } from "#server/statistics/moments";
import { digamma, trigamma, trigammaInverse } from "#server/statistics/polygamma";

/** A variance told from so many degrees of freedom. */
export interface Variance {
  readonly variance: number;
  readonly degrees: number;
}

/** What is known of a variance beforehand: as if `d0` squared deviations with mean `s02` had been seen. */
export interface Beforehand {
  readonly d0: number;
  readonly s02: number;
}

/** more weight than this is never put on what others lead to expect: too much is the unsafe side */
const MOST_DEGREES = 30;

/**
 * What variances of like things lead to expect of one more, by mean and variance of their logarithms.
 *
 * Source: Smyth 2004, Statistical Applications in Genetics and Molecular Biology 3:3 (from memory; checked by simulation).
 */
export function knownBeforehand(variances: readonly Variance[]): Beforehand {
  if (variances.length < 2) return { d0: 0, s02: 0 };
  const levels = variances.map(
    ({ variance, degrees }) => Math.log(variance) - digamma(degrees / 2) + Math.log(degrees / 2),
  );
  const expected = mean(variances.map(({ degrees }) => trigamma(degrees / 2)));
  const between = (standardDeviation(levels) ?? 0) ** 2 - expected;
  const most = Math.min(MOST_DEGREES, 2 * levels.length);
  const d0 = between > 0 ? Math.min(most, 2 * trigammaInverse(between)) : most;
  return { d0, s02: Math.exp(mean(levels) + digamma(d0 / 2) - Math.log(d0 / 2)) };
}
