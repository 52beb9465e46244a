/**
 * Seeded numbers for long simulations: four words of state (sfc32), so that no two runs share a stretch of numbers, as
 * runs of hundreds of millions would with one word.
 */
export function longChance(seed: number) {
  let [a, b, c, d] = [seed >>> 0, 0x9e3779b9, 0x243f6a88, 1];
  let spare: number | null = null;
  function word(): number {
    const sum = (((a + b) | 0) + d) | 0;
    d = (d + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = (((c << 21) | (c >>> 11)) + sum) | 0;
    return sum >>> 0;
  }
  for (let i = 0; i < 20; i++) word();
  const uniform = () => word() / 4294967296;
  function normal(): number {
    if (spare !== null) {
      const kept = spare;
      spare = null;
      return kept;
    }
    const radius = Math.sqrt(-2 * Math.log(1 - uniform()));
    const turn = 2 * Math.PI * uniform();
    spare = radius * Math.sin(turn);
    return radius * Math.cos(turn);
  }
  /** sum of so many squared normal values: pairs of them are exponential */
  function squares(count: number): number {
    let sum = count % 2 === 1 ? normal() ** 2 : 0;
    for (let pair = 0; pair < count >> 1; pair++) sum -= 2 * Math.log(1 - uniform());
    return sum;
  }
  /** Student's t with whole degrees of freedom, brought to variance one */
  const heavy = (degrees: number) => normal() / Math.sqrt(squares(degrees) / (degrees - 2));
  return { uniform, normal, squares, heavy };
}
