/**
 * Kg of waste that larvae were reared on, from their fresh mass and the share of the waste (wet) that became larvae.
 *
 * A drying log does not measure waste: the share differs by a factor of five between sites, so it must be declared with
 * its source, and the result be shown as a range. Null unless the share lies between 0 and 1.
 *
 * wasteTreatedKg(1000, 0.25) // 4000
 */
export function wasteTreatedKg(freshKg: number, conversionShare: number): number | null {
  return conversionShare > 0 && conversionShare < 1 ? freshKg / conversionShare : null;
}
