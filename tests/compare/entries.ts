import type { Compared, Entry, Measured } from "#server/compare/entry";
import { known, type Unit, unknown } from "#server/terms/figure";
import { seeded } from "../statistics/seeded";

const asKnownOn = { ledgerSize: 1, time: null };

/** A figure with everything a comparison asks for; ± 1.96 errors around it. */
export function measured(value: number, se: number, more: Partial<Measured> & { unit?: Unit } = {}): Measured {
  const { unit = "kg/kg", ...rest } = more;
  return {
    figure: known({
      value,
      unit,
      restsOn: { used: 25, here: 25, owed: 25, of: "batches" },
      interval: { low: value - 1.96 * se, high: value + 1.96 * se, level: 0.95 },
      asKnownOn,
    }),
    se,
    clusters: 25,
    mass: 100,
    usable: 1,
    ...rest,
  };
}

export function nothing(unit: Unit = "kg/kg"): Measured {
  return {
    figure: unknown({
      why: "nothing-logged",
      unit,
      restsOn: { used: 0, here: 0, owed: 25, of: "batches" },
      asKnownOn,
    }),
    se: null,
    clusters: 0,
    mass: 0,
    usable: 0,
  };
}

/** The record of a site that owed so many and sent none: a share of nothing, which is known. */
export function nothingOf(owed: number): Measured {
  const restsOn = { used: 0, here: 0, owed, of: "batches" } as const;
  return { ...nothing(), figure: known({ value: 0, unit: "share", restsOn, asKnownOn }) };
}

export function entry(
  site: number,
  own: Partial<Record<Compared, Measured>>,
  more: Partial<Omit<Entry, "measured">> = {},
): Entry {
  return {
    site,
    method: "sand-pan",
    fuel: "lpg",
    freshWeighed: { when: "drained" },
    driedWeighed: { when: "cooled", sieved: "after-sieving" },
    ...more,
    measured: {
      "dry-yield": nothing(),
      "fuel-per-driven-off": nothing("MJ/kg"),
      "fresh-per-pan-hour": nothing("kg/pan-hour"),
      "minutes-per-kg": nothing("minutes/kg"),
      "record-usable": measured(1, 0, { unit: "share" }),
      ...own,
    },
  };
}

/** Some sites with the same dryer and fuel; `times` brings the masses in another unit. */
export function someSites(seed: number, count: number, times = 1): Entry[] {
  const chance = seeded(seed);
  return Array.from({ length: count }, (_, i) =>
    entry(i + 1, {
      "dry-yield": measured(0.33 + 0.02 * chance.normal(), 0.003 + 0.004 * chance.uniform(), {
        mass: times * (300 + 500 * chance.uniform()),
        usable: chance.uniform() < 0.2 ? 0.6 : 1,
      }),
      "fuel-per-driven-off": measured((6 + chance.normal()) / times, 0.2 / times, { unit: "MJ/kg", mass: times * 400 }),
    }),
  );
}
