import { sumOf } from "#server/statistics/sum";
import type { FuelSpan } from "#server/terms/fuel";
import { touch } from "./fuelBook";
import type { SpanHeat } from "./fuelDays";

/** What stands against using a day for a fuel figure. */
export type Against = "open" | "shared" | "several-methods";

/** What one span gave on the days of a window: its heat, shared out by the fresh mass that was dried. */
export interface Given {
  readonly lowMj: number;
  readonly bestMj: number;
  readonly highMj: number;
}

/** Days that belong together because spans of fuel tie them. Heat and masses are of the same days. */
export interface FuelWindow {
  readonly from: string;
  readonly to: string;
  readonly spans: readonly FuelSpan[];
  /** its days with loads on which every fuel is known */
  readonly days: readonly string[];
  /** its days with loads that cannot be used, by what stands against them */
  readonly unusable: Readonly<Record<Against, number>>;
  readonly loads: number;
  readonly freshKg: number;
  readonly pairedFreshKg: number;
  readonly driedKg: number;
  /** heat of all loads of the days, span by span */
  readonly allHeat: readonly Given[];
  /** the part of it that belongs to the loads with both weights, by fresh mass */
  readonly pairedHeat: readonly Given[];
}

/** Spans that share days, of whatever fuel, form one group. `spans` in the order of their first day. */
export function tiedByDays(heats: readonly SpanHeat[]): SpanHeat[][] {
  const groups: { to: string; heats: SpanHeat[] }[] = [];
  for (const heat of [...heats].sort((a, b) => (a.span.from < b.span.from ? -1 : Number(a.span.from > b.span.from)))) {
    const last = groups.at(-1);
    if (last && heat.span.from <= last.to) {
      last.heats.push(heat);
      if (heat.span.to > last.to) last.to = heat.span.to;
    } else {
      groups.push({ to: heat.span.to, heats: [heat] });
    }
  }
  return groups.map((group) => group.heats);
}

/**
 * One window from spans tied by days.
 *
 * `others` are known spans that ended earlier and reach into the window: they give their share of these days, so that no
 * fuel burned on them is left out. `against` says why a day cannot be used; such days are left out of heat and masses alike.
 */
export function fuelWindow(
  tied: readonly SpanHeat[],
  others: readonly SpanHeat[],
  against: (day: string) => Against | null,
): FuelWindow {
  const from = tied[0]!.span.from;
  const to =
    tied
      .map(({ span }) => span.to)
      .sort()
      .at(-1) ?? from;
  const found = new Map(tied.flatMap(({ days }) => days).map((day) => [day.day, day]));
  const days = [...found.values()].sort((a, b) => (a.day < b.day ? -1 : Number(a.day > b.day)));
  const unusable = { open: 0, shared: 0, "several-methods": 0 };
  const usable = days.filter(({ day }) => {
    const why = against(day);
    if (why !== null) unusable[why] += 1;
    return why === null;
  });
  const used = new Set(usable.map(({ day }) => day));
  const giving = [...tied, ...others.filter((heat) => touch(heat.span, { from, to }))];
  const share = (mass: "freshKg" | "pairedFreshKg") => giving.map((heat) => given(heat, mass, used));
  return {
    from,
    to,
    spans: tied.map(({ span }) => span),
    days: usable.map(({ day }) => day),
    unusable,
    loads: sumOf(usable, (day) => day.loads),
    freshKg: sumOf(usable, (day) => day.freshKg),
    pairedFreshKg: sumOf(usable, (day) => day.pairedFreshKg),
    driedKg: sumOf(usable, (day) => day.driedKg),
    allHeat: share("freshKg"),
    pairedHeat: share("pairedFreshKg"),
  };
}

function given(heat: SpanHeat, mass: "freshKg" | "pairedFreshKg", used: ReadonlySet<string>): Given {
  const part =
    sumOf(
      heat.days.filter(({ day }) => used.has(day)),
      (day) => day[mass],
    ) / heat.freshKg;
  return { lowMj: heat.lowMj * part, bestMj: heat.bestMj * part, highMj: heat.highMj * part };
}
