/**
 * Chances corrected for how many were looked at: taking all below q keeps the share of false finds among them below q.
 *
 * The order of the input is kept. Source: Benjamini & Hochberg 1995, Journal of the Royal Statistical Society B 57:289.
 *
 * adjustedChances([0.01, 0.04, 0.03]) // 0.03, 0.04, 0.04
 */
export function adjustedChances(chances: readonly number[]): number[] {
  const order = chances.map((_, i) => i).sort((a, b) => chances[b]! - chances[a]!);
  const adjusted = new Array<number>(chances.length).fill(1);
  let least = 1;
  order.forEach((place, i) => {
    least = Math.min(least, (chances[place]! * chances.length) / (chances.length - i));
    adjusted[place] = least;
  });
  return adjusted;
}
