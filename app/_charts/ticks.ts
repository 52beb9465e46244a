import type { Scale } from "./scale";

/**
 * Round numbers within a scale: multiples of 1, 2 or 5 times a power of ten, the step being the one that comes nearest to
 * the number asked for, of two as near the finer one. Always at least one.
 *
 * ticksOn({ low: 0.287, high: 0.345 }, 3) // 0.3, 0.32, 0.34
 */
export function ticksOn(scale: Scale, about: number): number[] {
  const span = scale.high - scale.low;
  if (!(span > 0)) return [scale.low];
  const power = 10 ** Math.floor(Math.log10(span));
  const tried = [0.1, 0.2, 0.5, 1, 2, 5].map((times) => multiplesIn(scale, times * power));
  const off = (ticks: readonly number[]) =>
    ticks.length === 0 ? Number.POSITIVE_INFINITY : Math.abs(ticks.length - about);
  return tried.reduce((best, ticks) => (off(ticks) < off(best) ? ticks : best));
}

function multiplesIn({ low, high }: Scale, step: number): number[] {
  const ticks: number[] = [];
  // multiplied, not added up, so that 0.3 is not 0.30000000000000004
  for (let n = Math.ceil(low / step - 1e-9); n * step <= high + step * 1e-9; n++)
    ticks.push(Number((n * step).toPrecision(12)));
  return ticks;
}
