/** First derivative of the logarithm of the gamma function, for positive `x`. digamma(1) is -0.577216. */
export function digamma(x: number): number {
  let below = 0;
  let at = x;
  for (; at < 12; at++) below += 1 / at;
  const r = 1 / (at * at);
  // asymptotic series with Bernoulli numbers (Abramowitz & Stegun 1964, 6.3.18)
  return Math.log(at) - 0.5 / at - r * (1 / 12 - r * (1 / 120 - r * (1 / 252 - r * (1 / 240 - r / 132)))) - below;
}

/** Second derivative of the logarithm of the gamma function, for positive `x`. trigamma(1) is π²/6. */
export function trigamma(x: number): number {
  let below = 0;
  let at = x;
  for (; at < 12; at++) below += 1 / (at * at);
  const r = 1 / (at * at);
  // Abramowitz & Stegun 1964, 6.4.12
  return below + (1 / at) * (1 + 0.5 / at + r * (1 / 6 - r * (1 / 30 - r * (1 / 42 - r * (1 / 30 - (r * 5) / 66)))));
}

/** The `x` with trigamma(x) = value, for positive values; found by Newton on 1 / trigamma, which is almost straight. */
export function trigammaInverse(value: number): number {
  let x = 0.5 + 1 / value;
  for (let round = 0; round < 60; round++) {
    const now = trigamma(x);
    const slope = (trigamma(x * (1 + 1e-5)) - trigamma(x * (1 - 1e-5))) / (2e-5 * x);
    const step = (now * (1 - now / value)) / slope;
    x += step;
    if (Math.abs(step) < 1e-10 * x) break;
  }
  return x;
}
