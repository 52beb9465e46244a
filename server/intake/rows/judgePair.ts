import type { Quantity } from "#server/terms/batch";
import type { Choice } from "#server/terms/problem";
import type { Column } from "../columns/column";
import { times } from "../values/exact";
import type { Reasons } from "./reasons";

interface Weighed {
  readonly mass: Quantity;
  readonly column: Column;
}

/** Out over in beyond which grams and kilograms were mixed, and the yield that must then result: common practice. */
const SLIP_ABOVE = 3;
const SLIP_BELOW = 0.01;
const USUAL_YIELD = { from: 0.2, to: 0.5 };

/**
 * Judges a fresh and a dried weight together: what cannot be is held, what is rare is noted. What a person has put in
 * stands, however odd.
 */
export function judgePair(fresh: Weighed, dried: Weighed, isPut: boolean, reasons: Reasons): void {
  const share = yieldOf(dried.mass.value, fresh.mass.value);
  const isUsual = share !== null && share >= USUAL_YIELD.from && share <= USUAL_YIELD.to;
  if (isUsual) return;
  const slip = share === null || isPut ? null : yieldWithoutSlip(share);
  if (slip !== null && share !== null) {
    const [onDried, onFresh] = share > 1 ? ["0.001", "1000"] : ["1000", "0.001"];
    reasons.add("unit-slip-suspected", dried.column, [
      { put: `${times(dried.mass.exact, onDried)} kg`, yieldThen: slip },
    ]);
    reasons.add("unit-slip-suspected", fresh.column, [
      { put: `${times(fresh.mass.exact, onFresh)} kg`, yieldThen: slip },
    ]);
  } else if (!isPut && dried.mass.value > fresh.mass.value)
    reasons.add("out-more-than-in", dried.column, exchanged(fresh, dried));
  else if (!isPut && dried.mass.value === 0)
    reasons.add("dried-is-zero", dried.column, [{ put: "0 kg", yieldThen: 0 }]);
  else reasons.add("yield-unusual", dried.column);
}

/** The two weights the other way round. */
function exchanged(fresh: Weighed, dried: Weighed): Choice[] {
  if (fresh.mass.value <= 0) return [];
  const other = { column: fresh.column.column, put: `${dried.mass.exact} kg` };
  return [{ put: `${fresh.mass.exact} kg`, yieldThen: yieldOf(fresh.mass.value, dried.mass.value), with: other }];
}

/** The yield if one of both was written in grams and read as kilograms; null when that makes no sense either. */
function yieldWithoutSlip(share: number): number | null {
  if (share >= SLIP_BELOW && share <= SLIP_ABOVE) return null;
  const then = share > 1 ? share / 1000 : share * 1000;
  return then >= USUAL_YIELD.from && then <= USUAL_YIELD.to ? then : null;
}

/** Kg dried per kg fresh, or null when either is not known or nothing was fresh. */
export function yieldOf(driedKg: number | null, freshKg: number | null): number | null {
  return driedKg === null || freshKg === null || freshKg <= 0 ? null : driedKg / freshKg;
}
