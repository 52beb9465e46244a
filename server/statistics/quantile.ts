import normal from "@stdlib/stats-base-dists-normal-quantile";
import student from "@stdlib/stats-base-dists-t-quantile";

/** Quantile of Student's t: tQuantile(0.975, 4) is 2.776. */
export function tQuantile(share: number, degreesOfFreedom: number): number {
  return student(share, degreesOfFreedom);
}

/** Quantile of the standard normal distribution: normalQuantile(0.975) is 1.960. */
export function normalQuantile(share: number): number {
  return normal(share, 0, 1);
}
