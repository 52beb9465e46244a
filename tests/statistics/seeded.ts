/** Numbers that look like chance and are the same on every run (mulberry32). */
export function seeded(seed: number) {
  let state = seed >>> 0;
  let spare: number | null = null;
  /** between 0 and 1 */
  function uniform(): number {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  }
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
  /** Student's t with whole degrees of freedom, brought to variance 1 */
  function heavy(degrees: number): number {
    let squares = 0;
    for (let i = 0; i < degrees; i++) squares += normal() ** 2;
    return normal() / Math.sqrt(squares / degrees) / Math.sqrt(degrees / (degrees - 2));
  }
  return { uniform, normal, heavy };
}
