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
 * One Halley step on the chance itself brings the library's answer from 9 digits in the far tail to all that a double
 * holds. For upper tails ask for the lower one and turn the sign, so that no digits are lost.
 *
 * normalQuantile(0.975) // 1.959964
 */
export function normalQuantile(below: number): number {
  if (below > 0.5) return -normalQuantile(1 - below);
  const near = quantile(below, 0, 1);
  if (!Number.isFinite(near)) return near;
  const step = (normalBelow(near) - below) / normalDensity(near);
  return near - step / (1 + (near * step) / 2);
}
