import cdf from "@stdlib/stats-base-dists-t-cdf";
import quantile from "@stdlib/stats-base-dists-t-quantile";
import { normalQuantile } from "./normal";

/** Chance that Student's t with `degrees` of freedom lies below `t`; precise in the lower tail. */
export function studentBelow(t: number, degrees: number): number {
  return cdf(t, degrees);
}

/** The value below which Student's t lies with chance `below`. For upper tails ask for the lower one and turn the sign. */
export function studentQuantile(below: number, degrees: number): number {
  return quantile(below, degrees);
}

/**
 * The standard normal value with the same tail as a value of Student's t: what `t` would have been with a spread known.
 *
 * An asymptotic series in 1 / (48 a²), a = degrees - 1/2, carried on from Hill 1970 (Communications of the ACM 13:617,
 * algorithm 395) to five terms: w² = a ln(1 + t²/degrees) is normal but for exp(-w⁴/(48 a²) + …), and the terms follow
 * from that by power series. Within 2e-9 of the exact answer where it is used; elsewhere, few degrees or a far tail,
 * the tails themselves are compared.
 *
 * normalScore(2.228139, 10) // 1.959964: both leave 2.5 % above
 */
export function normalScore(t: number, degrees: number): number {
  const a = degrees - 0.5;
  const x = (t * t) / degrees;
  const u = a * (x < 1e-4 ? Math.log1p(x) : Math.log(1 + x)); // log1p only where it is needed: it is twice as slow
  const size = degrees < 12 || u * u > 0.7 * a * a ? scoreByTail(t, degrees, u) : series(u, 1 / (48 * a * a), a > 80);
  return t < 0 ? -size : size;
}

function scoreByTail(t: number, degrees: number, u: number): number {
  const tail = cdf(-Math.abs(t), degrees);
  // a tail that no double holds: the leading term is all that can be said
  return tail === 0 ? Math.sqrt(u) : -normalQuantile(tail);
}

function series(u: number, e: number, short: boolean): number {
  const first = u + 3;
  const second = -(((0.4 * u + 3.3) * u + 24) * u + 85.5);
  const third = ((((32 / 105) * u + 394 / 105) * u + 3267 / 70) * u + 427.5) * u * u + 2587.5 * u + 8518.5;
  let sum = third;
  if (!short) {
    const fourth = -(
      ((((((48 / 175) * u + 2362 / 525) * u + 13729 / 175) * u + 313239 / 280) * u + 61938 / 5) * u + 2020491 / 20) *
        u *
        u +
      559494 * u +
      14119677 / 8
    );
    const fifth =
      ((((((((512 / 1925) * u + 4496 / 825) * u + 705722 / 5775) * u + 906571 / 385) * u + 579425139 / 15400) * u +
        136358919 / 280) *
        u +
        99217413 / 20) *
        u +
        759571911 / 20) *
        u *
        u +
      (1612043127 / 8) * u +
      4979503269 / 8;
    sum += e * (fourth + e * fifth);
  }
  return Math.sqrt(u) * (1 + e * (first + e * (second + e * sum)));
}
