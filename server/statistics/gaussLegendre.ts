/** Points and weights that integrate over [-1, 1], with the weights that interpolate between the points. */
export interface Rule {
  readonly at: Float64Array;
  readonly weight: Float64Array;
  /** of the barycentric form of the polynomial through the points */
  readonly barycentric: Float64Array;
}

/**
 * Gauss–Legendre rule with `n` points: exact for polynomials up to degree 2n - 1.
 *
 * Points are roots of the Legendre polynomial, found by Newton from their asymptotic places.
 *
 * gaussLegendre(2).at // -0.57735, 0.57735
 */
export function gaussLegendre(n: number): Rule {
  const at = new Float64Array(n);
  const weight = new Float64Array(n);
  const barycentric = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    let x = -Math.cos((Math.PI * (i + 0.75)) / (n + 0.5));
    let slope = 1;
    for (let round = 0; round < 50; round++) {
      const [value, before] = legendre(n, x);
      slope = (n * (x * value - before)) / (x * x - 1);
      const step = value / slope;
      x -= step;
      if (Math.abs(step) < 1e-16) break;
    }
    at[i] = x;
    weight[i] = 2 / ((1 - x * x) * slope * slope);
    barycentric[i] = (i % 2 === 0 ? 1 : -1) * Math.sqrt((1 - x * x) * weight[i]!);
  }
  return { at, weight, barycentric };
}

/** Values of the Legendre polynomials of degree n and n - 1. */
function legendre(n: number, x: number): [number, number] {
  let before = 1;
  let value = x;
  for (let degree = 2; degree <= n; degree++) {
    const next = ((2 * degree - 1) * x * value - (degree - 1) * before) / degree;
    before = value;
    value = next;
  }
  return [value, before];
}

/**
 * Adds to `into`, from `offset` on, the weights with which the values at a rule's points make up the value at `x`.
 *
 * `x` is in the rule's own [-1, 1]; everything is multiplied by `factor`.
 */
export function addInterpolation(rule: Rule, x: number, factor: number, into: Float64Array, offset: number): void {
  const { at, barycentric } = rule;
  let total = 0;
  for (let j = 0; j < at.length; j++) {
    const distance = x - at[j]!;
    if (distance === 0) {
      into[offset + j] = into[offset + j]! + factor;
      return;
    }
    total += barycentric[j]! / distance;
  }
  for (let j = 0; j < at.length; j++) {
    into[offset + j] = into[offset + j]! + (factor * barycentric[j]!) / ((x - at[j]!) * total);
  }
}
