import type { Scale } from "./scale";

/**
 * Round numbers within a scale, about as many as asked for: multiples of 1, 2 or 5 times a power of ten.
 *
 * ticksOn({ low: 0.287, high: 0.345 }, 3) // 0.3, 0.32, 0.34
 */
export function ticksOn({ low, high }: Scale, about: number): number[] {
  const rough = (high - low) / Math.max(1, about);
  if (!(rough > 0)) return [low];
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = power * ([1, 2, 5].find((times) => times * power >= rough) ?? 10);
  const ticks: number[] = [];
  // multiplied, not added up, so that 0.3 is not 0.30000000000000004
  for (let n = Math.ceil(low / step - 1e-9); n * step <= high + step * 1e-9; n++)
    ticks.push(Number((n * step).toPrecision(12)));
  return ticks;
}
