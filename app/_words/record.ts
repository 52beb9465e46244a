import type { Completeness } from "#server/measures/completeness";
import { counted } from "./days";
import { whyNone } from "./figures";

/** One step of the way from what was owed to what can be used. `count` null: nobody declared it. */
export interface Step {
  readonly name: "owed" | "here" | "in time" | "usable";
  readonly count: number | null;
  readonly says: string;
}

/** Owed, here, in time, usable: each a count with what it means. Usable is told for the dry yield; other figures have their own. */
export function recordSteps({ owed, here, inTime, usable, toCome }: Completeness): Step[] {
  const { of, by, count } = owed;
  const how =
    by === "number" ? "by the unbroken series of numbers" : by === "schedule" ? "by the declared schedule" : "";
  const coming = toCome === 0 ? "" : `; ${counted(toCome, "dried weight is", "dried weights are")} still to come`;
  return [
    {
      name: "owed",
      count,
      says: count === null || count === 0 ? whyNone(owed.why ?? "nothing-owed") : `${of} ${how}`,
    },
    { name: "here", count: here, says: `${of} in the logs that arrived` },
    { name: "in time", count: inTime, says: `${of} by the day due` },
    { name: "usable", count: usable["dry-yield"], says: `${of} with both weights, for the dry yield${coming}` },
  ];
}

/** What else there is to say: what is missing or beyond, and days that were not owed. */
export function recordRemarks({ owed, missing, excess, reported, usable }: Completeness): string[] {
  const { closed, claimed, nothingProduced } = owed.days;
  return [
    ...(missing !== null && missing > 0 ? [`${missing} owed and not here.`] : []),
    ...(excess !== null && excess > 0 ? [`${excess} here beyond what was owed: shown, and not credited.`] : []),
    ...(closed.length > 0 ? [`${counted(closed.length, "closed day")}, not owed.`] : []),
    ...(claimed.length > 0 ? [`${counted(claimed.length, "closed day")} declared too late, still owed.`] : []),
    ...(nothingProduced.length > 0 ? ["Nothing was produced, as the site declared."] : []),
    ...(owed.gaps.length > 0 ? [`Numbers missing: ${numbersInWords(owed.gaps)}.`] : []),
    ...(reported === false ? ["Nothing came for this month, and no month without production was declared."] : []),
    `Usable for throughput ${usable["pan-time"]}, for fuel ${usable.fuel}.`,
  ];
}

function numbersInWords(gaps: readonly number[]): string {
  return gaps.length <= 12 ? gaps.join(", ") : `${gaps.slice(0, 12).join(", ")} and ${gaps.length - 12} more`;
}
