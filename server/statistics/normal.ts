import cdf from "@stdlib/stats-base-dists-normal-cdf";
import quantile from "@stdlib/stats-base-dists-normal-quantile";

const ROOT_TWO_PI = Math.sqrt(2 * Math.PI);

/** Density of the standard normal law at `x`. */
export function normalDensity(x: number): number {
  return Math.exp((-x * x) / 2) / ROOT_TWO_PI;
}

/** Chance that a standard normal value lies below `x`; precise in the lower tail (`normalBelow(-6)` is 9.8659e-10). */
export function normalBelow(x: number): number {
  return cdf(x, 0, 1);
}

/** Chance that a standard normal value lies above `x`; precise in the upper tail, where 1 - below would lose digits. */
export function normalAbove(x: number): number {
  return cdf(-x, 0, 1);
}

/**
 * The value below which a standard normal value lies with chance `below`.
 *
 * One Halley step on the chance itself brings the library's answer from 9 digits to all that a double holds. The library
 * knows nothing below 1e-16; from 1e-12 on the answer is found by Newton on the logarithm of the chance. For upper tails
 * ask for the lower one and turn the sign, so that no digits are lost.
 *
 * normalQuantile(0.975) // 1.959964
 */
export function normalQuantile(below: number): number {
  if (below > 0.5) return -normalQuantile(1 - below);
  if (below > 0 && below < 1e-12) return farQuantile(below);
  const near = quantile(below, 0, 1);
  if (!Number.isFinite(near)) return near;
  const step = (normalBelow(near) - below) / normalDensity(near);
  return near - step / (1 + (near * step) / 2);
}

function farQuantile(below: number): number {
  const u = -2 * Math.log(below);
  let x = -Math.sqrt(u - Math.log(2 * Math.PI * u));
  for (let round = 0; round < 5; round++) {
    const chance = normalBelow(x);
    x -= (Math.log(chance / below) * chance) / normalDensity(x);
  }
  return x;
}
