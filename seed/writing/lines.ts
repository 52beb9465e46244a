import { scaleKg } from "../process/scales";
import type { Book, Day, Truth } from "../site";

/** One line that somebody writes: a load, or a day's tally. */
export interface Line {
  readonly day: Day;
  /** first and last line of its day: these carry what is said once a day */
  readonly first: boolean;
  readonly last: boolean;
  readonly loads: number;
  readonly number: number;
  readonly serial: number;
  readonly pan: number;
  readonly startMinute: number;
  readonly minutes: number;
  readonly freshSteps: number;
  readonly driedSteps: number;
  readonly newSand: boolean;
  readonly isCrisp: boolean;
  readonly slip: Slip | null;
}

/**
 * What goes wrong in writing: the dried weight is lost, cannot be told for sure, is in another unit, or changed places
 * with the fresh one. All but the first must be looked at by somebody.
 */
export type Slip = "lost" | "doubtful" | "other-unit" | "swapped";

export function loadLines({ days }: Book): Line[] {
  return days.flatMap((day) =>
    day.loads.map((load, at) => ({
      ...load,
      day,
      first: at === 0,
      last: at === day.loads.length - 1,
      loads: 1,
      slip: null,
    })),
  );
}

export function tallyLines({ days }: Book): Line[] {
  return days.flatMap((day) => {
    const [first] = day.loads;
    if (first === undefined) return [];
    const sum = (of: "freshSteps" | "driedSteps" | "minutes") => day.loads.reduce((all, load) => all + load[of], 0);
    return {
      ...first,
      day,
      first: true,
      last: true,
      loads: day.loads.length,
      freshSteps: sum("freshSteps"),
      driedSteps: sum("driedSteps"),
      minutes: sum("minutes"),
      slip: null,
    };
  });
}

/** Now and then a line goes wrong; never one that carries what is said once for several loads. */
export function withSlips({ chance }: Book, lines: readonly Line[], kinds: readonly [Slip, ...Slip[]]): Line[] {
  const slips = new Map<number, Slip>();
  for (const share of [0.45, 0.2]) {
    const at = chance.whole(0, Math.max(0, lines.length - 1));
    const slip = chance.pick(kinds);
    const line = lines[at];
    if (chance.happens(share) && line !== undefined && (line.loads > 1 || !(line.first || line.last)))
      slips.set(at, slip);
  }
  return lines.map((line, at) => ({ ...line, slip: slips.get(at) ?? null }));
}

/** How a log tells its fuel: an amount a day, the cylinder's weight before and after, or a mark when it was changed. */
export type FuelTold = "amount" | "gross" | "change";

/** What the lines say to somebody who reads them as they were meant, without those that must be looked at. */
export function truthOf({ nature }: Book, lines: readonly Line[], told: FuelTold, rowsBeside = 0): Truth {
  const counted = lines.filter(({ slip }) => slip === null || slip === "lost");
  const kg = nature.scale.step * scaleKg(nature.scale.unit);
  const sum = (of: (line: Line) => number) => counted.reduce((all, line) => all + of(line), 0);
  const once = (of: (day: Day) => number) => sum((line) => (line.first ? of(line.day) : 0));
  return {
    rows: counted.length + rowsBeside,
    held: lines.length - counted.length,
    loads: sum(({ loads }) => loads),
    freshKg: sum(({ freshSteps }) => freshSteps) * kg,
    driedKg: sum(({ driedSteps, slip }) => (slip === null ? driedSteps : 0)) * kg,
    minutes: sum(({ minutes }) => minutes),
    fuel: told === "change" ? 0 : once(({ fuelSteps }) => fuelSteps) * nature.fuelStep,
    cylinders: told === "change" ? once(({ cylindersOn }) => cylindersOn) : 0,
  };
}
