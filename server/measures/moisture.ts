/** Moisture is a share of the whole mass (wet basis) unless the name says dry basis. */

/** Kg left when so many kg are dried from one moisture to another: only water goes, dry matter stays. */
export function driedMassKg(freshKg: number, moistureIn: number, moistureOut: number): number {
  return (freshKg * (1 - moistureIn)) / (1 - moistureOut);
}

/** Share of the mass that is lost on drying; not the difference of the two moistures. */
export function massLossShare(moistureIn: number, moistureOut: number): number {
  return 1 - driedMassKg(1, moistureIn, moistureOut);
}

/** 15 % of the whole is 0.176 of the dry matter. */
export function dryBasis(moistureShare: number): number {
  return moistureShare / (1 - moistureShare);
}

/** 0.176 of the dry matter is 15 % of the whole. */
export function wetBasis(waterPerDryKg: number): number {
  return waterPerDryKg / (1 + waterPerDryKg);
}

/** Moisture of what came out, if no dry matter was lost. Below 0 dry matter was lost or the feed is misjudged. */
export function impliedMoisture(dryMatterShare: number, dryYield: number): number {
  return 1 - dryMatterShare / dryYield;
}

/**
 * Standard error of the implied moisture from the errors of dry matter and yield.
 *
 * √((σdry/Y)² + (dry·σY/Y²)²).
 *
 * impliedMoistureError(0.30 ± 0.03, 0.3260870 ± 0.01) // 0.0962
 */
export function impliedMoistureError(dryMatterShare: number, drySd: number, dryYield: number, yieldSe: number): number {
  return Math.hypot(drySd / dryYield, (dryMatterShare * yieldSe) / dryYield ** 2);
}
