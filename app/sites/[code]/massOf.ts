import type { MonthFigures } from "#server/jobs/figures";
import type { MassParts } from "../../_charts/massParts";

/**
 * The masses of some months together: of the loads with both weights, what came out and what was driven off.
 *
 * Dry matter that is missing at the least is told apart as unexplained only where every month has a measured dry matter;
 * null where no load has both weights.
 */
export function massOf(
  months: readonly Pick<MonthFigures, "massBalance">[],
): { readonly parts: MassParts; readonly says: string } | null {
  const told = months.flatMap(({ massBalance }) =>
    massBalance.masses === null ? [] : [{ ...massBalance, masses: massBalance.masses }],
  );
  if (told.length === 0) return null;
  const driedKg = sum(told.map(({ masses }) => masses.driedKg));
  const drivenOffKg = sum(told.map(({ masses }) => masses.drivenOffKg));
  if (!told.every(({ dryMatter }) => dryMatter.basis === "measured"))
    return {
      parts: { driedKg, waterKg: drivenOffKg, unexplainedKg: null },
      says: "Driven off is water and whatever else was lost: the dry matter of the fresh larvae was not measured for every month, so the two cannot be told apart.",
    };
  const lost = sum(
    told.map(({ solidsLossAtLeast }) => (solidsLossAtLeast?.known ? Math.max(0, solidsLossAtLeast.value) : 0)),
  );
  if (lost === 0)
    return {
      parts: { driedKg, waterKg: drivenOffKg, unexplainedKg: null },
      says: "By the dry matter that was measured, none of it has to be missing: what was driven off can all be water.",
    };
  return {
    parts: { driedKg, waterKg: drivenOffKg - lost, unexplainedKg: lost },
    says: "Unexplained is dry matter that is missing at the least, by the dry matter that was measured.",
  };
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((all, one) => all + one, 0);
}
