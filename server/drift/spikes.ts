import { studentQuantile } from "#server/statistics/student";

/** pooled scores below this many say too little about a far tail */
export const FEWEST_SCORES = 800;
/** scores that should lie beyond the limit, for it to be read off directly */
const ENOUGH_BEYOND = 10;

/**
 * The score beyond which a day is asked about, so that an honest day is with the chance given (both sides together).
 *
 * Day-to-day luck has heavier tails than the normal law, so the limit is read from the scores of all streams together:
 * the size that this share of them exceeds, and where too few do, the tail carried on as a power law (Hill 1975) from the
 * largest hundredth, of 30 at least. Before there are 800 scores a Student's t with variance one stands in: with 8 degrees, or with fewer
 * where the fourth moment says so, which is what `worth` (see Pooled) was worked out from.
 */
export function spikeLimit(scores: Float64Array, chance: number, worth = 1): number {
  if (scores.length < FEWEST_SCORES) return heavyTailed(chance, degreesOf(worth));
  const sizes = scores.map(Math.abs).sort();
  const beyond = Math.floor(scores.length * chance);
  const limit = beyond >= ENOUGH_BEYOND ? sizes[sizes.length - 1 - beyond]! : carriedOn(sizes, chance);
  // a stream that really moved fills the tail: never wider than tails that no honest process is known to have
  return Math.min(Math.max(limit, 3.5), heavyTailed(chance, 5));
}

function carriedOn(sizes: Float64Array, chance: number): number {
  const largest = Math.max(30, Math.floor(sizes.length / 100));
  const threshold = sizes[sizes.length - 1 - largest]!;
  let logs = 0;
  for (let i = 0; i < largest; i++) logs += Math.log(sizes[sizes.length - 1 - i]! / threshold);
  return threshold * (largest / (sizes.length * chance)) ** (logs / largest);
}

/** Degrees of the Student's t whose fourth moment gives this worth: its excess is 6 / (degrees - 4). Between 5 and 8. */
function degreesOf(worth: number): number {
  const excess = 2 * (1 / worth - 1);
  return excess > 0 ? Math.max(5, Math.min(8, 4 + 6 / excess)) : 8;
}

/** Two-sided limit of Student's t brought to variance one. heavyTailed(1 / 3120, 8) is 5.203. */
function heavyTailed(chance: number, degrees: number): number {
  return -studentQuantile(chance / 2, degrees) * Math.sqrt((degrees - 2) / degrees);
}
