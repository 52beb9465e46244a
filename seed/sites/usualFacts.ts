import type { FactValue } from "#server/terms/facts";
import { scaleKg } from "../process/scales";
import type { Declared, Nature } from "../site";

/** The country is invented; its clocks run like those of this zone. */
const ZONE = "Africa/Dar_es_Salaam";

/** Due on this day of the following month. */
export const DUE = 10;

export interface Usual {
  readonly name: string;
  readonly language: FactValue<"language">["language"];
  readonly nature: Nature;
  /** a line a load, or a line a day */
  readonly tally: boolean;
  readonly decimalMark: "." | ",";
  readonly numbering: FactValue<"numbering">["unique"];
  readonly hoursPerDay: number;
  readonly freshWeighed: FactValue<"fresh-weighed">["when"];
  readonly driedWeighed: FactValue<"dried-weighed">["when"];
  /** dry matter by an oven test; null where it is assumed */
  readonly dryMatterMeasured: number | null;
}

/** What every site declares when it opens. */
export function usualFacts(from: string, usual: Usual): Declared[] {
  const { nature, tally } = usual;
  const { weekdays, loadsPerDay: perDay, loadKg, scale } = nature;
  const share = usual.dryMatterMeasured ?? 0.3;
  return [
    { kind: "name", from, value: { name: usual.name } },
    { kind: "time-zone", from, value: { zone: ZONE } },
    { kind: "language", from, value: { language: usual.language } },
    { kind: "open", from, value: {} },
    { kind: "due", from, value: { dayOfMonth: DUE } },
    { kind: "schedule", from, value: { weekdays: [...weekdays], perDay, of: tally ? "days" : "batches" } },
    { kind: "tally", from, value: { writes: tally ? "days" : "loads" } },
    { kind: "hours", from, value: { perDay: usual.hoursPerDay } },
    { kind: "numbering", from, value: { unique: usual.numbering, unbroken: false } },
    {
      kind: "usual-measures",
      from,
      value: { mass: scale.unit, time: "min", decimalMark: usual.decimalMark, dayOrder: "dmy" },
    },
    { kind: "minutes-between-loads", from, value: { minutes: 10 } },
    { kind: "fresh-weighed", from, value: { when: usual.freshWeighed } },
    { kind: "dried-weighed", from, value: { when: usual.driedWeighed, sieved: "after-sieving" } },
    { kind: "dry-matter", from, value: { share, sd: 0.02, measured: usual.dryMatterMeasured !== null } },
    {
      kind: "plausible",
      from,
      value: { highestFreshKg: loadKg * 2 * (tally ? perDay : 1), lowestYield: 0.2, highestYield: 0.5 },
    },
    ...dryerFacts(from, nature),
  ];
}

/** What changes with the dryer. */
export function dryerFacts(
  from: string,
  { method, pans, loadKg, scale, fuel, fuelStep, cylinderKg }: Nature,
): Declared[] {
  const step = Number((scale.step * scaleKg(scale.unit)).toPrecision(6));
  const { unit } = { unit: fuel === "electricity" ? "kWh" : "kg" };
  return [
    { kind: "method", from, value: { method } },
    { kind: "pans", from, value: { pans } },
    { kind: "usual-load", from, value: { freshKg: loadKg, highestFreshKg: loadKg * 2 } },
    { kind: "main-fuel", from, value: { fuel } },
    { kind: "scale-step", key: "fresh", from, value: { kg: step } },
    { kind: "scale-step", key: "dried", from, value: { kg: step } },
    ...(unit === "kg" ? [{ kind: "scale-step", key: "fuel", from, value: { kg: fuelStep } } as const] : []),
    ...(cylinderKg === null ? [] : [{ kind: "cylinder", key: fuel, from, value: { netKg: cylinderKg } } as const]),
    ...(method === "sand-pan" ? [{ kind: "sand-limit", from, value: { loads: 40 } } as const] : []),
  ];
}
