import { LEVEL } from "#server/statistics/interval";
import { tQuantile } from "#server/statistics/quantile";
import type { MissingRange } from "#server/terms/figure";
import type { Measured } from "./entry";
import type { FunnelSite } from "./funnel";

/** Why nothing is claimed although the numbers would allow it. */
export type Withheld =
  /** what the missing loads may have been could turn it round */
  | "missing-could-overturn"
  /** loads are missing, and nobody declared what was owed or what is plausible */
  | "missing-cannot-be-bounded";

/** What may be said about two sites. */
export type Claim =
  | { readonly kind: "beyond-chance"; readonly difference: number; readonly low: number; readonly high: number }
  | { readonly kind: "within-chance"; readonly difference: number; readonly low: number; readonly high: number }
  | { readonly kind: "withheld"; readonly why: Withheld }
  | { readonly kind: "rests-on-little" };

/**
 * How much higher the first site is than the second, and whether that may be said.
 *
 * The interval is that of a difference of two means with unequal variances (Welch; Student's t). A difference beyond chance is
 * withheld where the missing loads of the two sites could make it nothing, whatever the reason that they are missing.
 * Source: manski-bounds.
 *
 * difference(0.34 ± 0.004, 0.30 ± 0.003, none missing) // 0.04, interval 0.03 to 0.05: beyond chance
 */
export function difference(first: Measured, second: Measured): Claim {
  const [a, b] = [first.figure, second.figure];
  if (!a.known || !b.known || first.se === null || second.se === null) return { kind: "rests-on-little" };
  const [va, vb] = [first.se ** 2, second.se ** 2];
  const between = a.value - b.value;
  const degrees = (va + vb) ** 2 / (va ** 2 / (first.clusters - 1) + vb ** 2 / (second.clusters - 1));
  const half = va + vb === 0 ? 0 : tQuantile((1 + LEVEL) / 2, degrees) * Math.sqrt(va + vb);
  const said = { difference: between, low: between - half, high: between + half };
  if (said.low <= 0 && said.high >= 0) return { kind: "within-chance", ...said };
  const [ra, rb] = [rangeOf(first), rangeOf(second)];
  if (ra === null || rb === null) return { kind: "withheld", why: "missing-cannot-be-bounded" };
  const overlap = ra.low <= rb.high && rb.low <= ra.high;
  return overlap ? { kind: "withheld", why: "missing-could-overturn" } : { kind: "beyond-chance", ...said };
}

/** Why a site that lies outside its limits is not called so; null where it may be, and where it lies inside. */
export function outsideWithheld(measured: Measured, { outer, outside }: FunnelSite): Withheld | null {
  if (outside === null) return null;
  const range = rangeOf(measured);
  if (range === null) return "missing-cannot-be-bounded";
  const reachesIn = outside === "above" ? range.low <= outer.high : range.high >= outer.low;
  return reachesIn ? "missing-could-overturn" : null;
}

/** What the figure may be, whatever is missing; itself where nothing is; null where that cannot be told. */
function rangeOf({ figure, usable }: Measured): MissingRange | null {
  if (!figure.known) return null;
  if (usable !== null && usable >= 1) return { low: figure.value, high: figure.value };
  return figure.missingRange;
}
