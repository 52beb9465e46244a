import type { Pair } from "#server/statistics/ratio";
import { sum } from "#server/statistics/sum";
import { type Batch, inOrderOfContent } from "#server/terms/batch";
import { type Fact, inForce } from "#server/terms/facts";
import { type DaySum, SUMMED, type Summed } from "#server/terms/sums";

/** Variance that one weighing's scale step adds, in kg²; null where the step was not declared. */
interface Weighing {
  readonly fresh: number | null;
  readonly dried: number | null;
}

/** What a batch adds to each sum; null when it says nothing about it. The meaning of num and den: terms/sums. */
const PARTS: Record<Summed, (batch: Batch, weighing: Weighing) => Pair | null> = {
  here: (batch) => ({ num: batch.loads, den: 1 }),
  "in-time": (batch) => (batch.inTime ? { num: batch.loads, den: 1 } : null),
  fresh: (batch) => (batch.fresh ? { num: batch.fresh.value, den: batch.loads } : null),
  "dry-yield": (batch) => (batch.fresh && batch.dried ? { num: batch.dried.value, den: batch.fresh.value } : null),
  "pan-time": (batch) => (batch.fresh && batch.minutes ? { num: batch.fresh.value, den: batch.minutes.value } : null),
  minutes: (batch) => (batch.minutes ? { num: batch.minutes.value, den: batch.loads } : null),
  scale: (batch, { fresh, dried }) => {
    if (!batch.fresh || !batch.dried || (fresh === null && dried === null)) return null;
    // a tally of n loads was weighed n times
    return { num: batch.loads * (dried ?? 0), den: batch.loads * (fresh ?? 0) };
  },
  "to-come": (batch) => (batch.driedToCome ? { num: batch.fresh?.value ?? 0, den: 1 } : null),
};

/**
 * Sums of each day, method and measure, from all current batches of those days.
 *
 * Batches are taken in order of content, so neither the order of arrival nor the split into files changes a bit.
 * Every measure has its own support: a batch without minutes still counts for the yield. A measure that no batch of
 * the day speaks of has no row. Variances of weighing come from the scale steps declared for the day (step²/12).
 *
 * daySums([10 kg -> 3 kg, 30 kg -> nothing yet]) // fresh 40 kg of 2 batches; dry-yield 3 / 10 of 1 batch
 */
export function daySums(batches: readonly Batch[], facts: readonly Fact[]): DaySum[] {
  const sorted = [...batches].sort((a, b) => a.site - b.site || inOrderOfContent(a, b));
  const [loads, nums, dens]: [number[], number[], number[]] = [[], [], []];
  return groups(sorted).flatMap((group) => {
    const { site, day, method } = group[0]!;
    const own = facts.filter((fact) => fact.site === site);
    const weighing = { fresh: stepVariance(own, day, "fresh"), dried: stepVariance(own, day, "dried") };
    return SUMMED.flatMap((measure) => {
      loads.length = nums.length = dens.length = 0;
      for (const batch of group) {
        const part = PARTS[measure](batch, weighing);
        if (part === null) continue;
        loads.push(batch.loads);
        nums.push(part.num);
        dens.push(part.den);
      }
      if (nums.length === 0) return [];
      return [{ site, day, method, measure, batches: nums.length, loads: sum(loads), num: sum(nums), den: sum(dens) }];
    });
  });
}

/** Runs of the same site, day and method. */
function groups(sorted: readonly Batch[]): Batch[][] {
  const found: Batch[][] = [];
  for (const batch of sorted) {
    const last = found.at(-1);
    const before = last?.[0];
    if (last && before?.site === batch.site && before.day === batch.day && before.method === batch.method) {
      last.push(batch);
    } else {
      found.push([batch]);
    }
  }
  return found;
}

function stepVariance(facts: readonly Fact[], day: string, mass: "fresh" | "dried"): number | null {
  const step = inForce(facts, "scale-step", day, mass);
  return step && step.kg ** 2 / 12;
}
