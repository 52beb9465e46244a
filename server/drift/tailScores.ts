import { normalScore } from "#server/statistics/student";
import { CLAMP, LAMBDA, LEARN, type Pooled, type Rules } from "./parameters";
import { SCORED, SPIKE, scoreSeries } from "./score";
import type { Series } from "./series";

/** A day this far outside teaches nothing while the limit itself is being found. */
const FAR_OUTSIDE = 9;
/** degrees with which a spread is as good as known */
const KNOWN = 1e9;

const ONLY_SCORES: Rules = {
  learn: LEARN,
  lambda: LAMBDA,
  clamp: CLAMP,
  edge: Number.POSITIVE_INFINITY,
  spikeAt: FAR_OUTSIDE,
};

/**
 * Sizes of a stream's scores by which the limit of its days to come is found: every day against the spread that all other
 * days of the stream tell, learning days left out. Empty for a stream without spread.
 *
 * The scores as they were given will not do. A spread known from few days makes a far day modest; the same day in a longer
 * history lies further out, and it is by longer histories that the days to come are judged. While nothing changes these, too,
 * are standard normal under normal luck.
 */
export function tailScores(series: Series, pooled: Pooled): Float64Array {
  const { unit, learnt } = scoreSeries(series, pooled, ONLY_SCORES);
  const degrees = pooled.d0 + pooled.worth * (learnt - 1);
  const others = degrees - pooled.worth;
  if (unit === null || !(others >= 1)) return new Float64Array(0);
  const { state, score } = scoreSeries(series, { ...pooled, d0: KNOWN, s02: unit * unit, worth: 1 }, ONLY_SCORES);
  return score
    .map((size, i) => {
      // a day far outside was not among those that taught the spread
      const left = state[i] === SPIKE ? 1 : (degrees - pooled.worth * size * size) / others;
      return Math.abs(normalScore(size / Math.sqrt(Math.max(left, 1 / degrees)), others));
    })
    .filter((_, i) => state[i]! >= SCORED);
}
