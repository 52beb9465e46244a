import type { Fuel } from "./fuel";
import type { SourceId } from "./sources";

/** A number from elsewhere and where from. */
export interface Sourced {
  readonly value: number;
  readonly source: SourceId;
}

/** Heat and gases of one fuel, all on net calorific value. Null: no published value is used. */
export interface FuelFactor {
  /** net heat per kg; per kg of the gas itself for biogas */
  readonly mjPerKg: Sourced | null;
  /** for logs in litres */
  readonly kgPerL: Sourced | null;
  /** for logs in m³ of gas at 0 °C */
  readonly mjPerM3: Sourced | null;
  /** kg of CO2 per TJ */
  readonly co2KgPerTj: Sourced | null;
  /** CO2 of plants and waste is a memo and never added to fossil CO2 */
  readonly origin: "fossil" | "biogenic" | "grid";
  readonly ch4KgPerTj: Sourced | null;
  readonly n2oKgPerTj: Sourced | null;
}

const ncv = (value: number): Sourced => ({ value, source: "ipcc-2006-ncv" });
const co2 = (value: number): Sourced => ({ value, source: "ipcc-2006-co2" });
const small = (value: number): Sourced => ({ value, source: "ipcc-2006-small-burners" });
const unseen = (value: number): Sourced => ({ value, source: "ipcc-2006-small-burners-unseen" });

/** The published factors. A site's dated fact "fuel-factor" stands before them. */
export const FUEL_FACTORS: Readonly<Record<Fuel, FuelFactor>> = {
  lpg: {
    mjPerKg: ncv(47.3),
    kgPerL: { value: 0.529749, source: "desnz-2026" },
    mjPerM3: null,
    co2KgPerTj: co2(63_100),
    origin: "fossil",
    ch4KgPerTj: small(5),
    n2oKgPerTj: small(0.1),
  },
  "natural-gas": {
    mjPerKg: ncv(48.0),
    kgPerL: null,
    mjPerM3: { value: 36.4, source: "jec-wtt-v5" },
    co2KgPerTj: co2(56_100),
    origin: "fossil",
    ch4KgPerTj: small(5),
    n2oKgPerTj: small(0.1),
  },
  biogas: {
    mjPerKg: ncv(50.4),
    kgPerL: null,
    mjPerM3: { value: 21.5, source: "densities-unseen" },
    co2KgPerTj: co2(54_600),
    origin: "biogenic",
    ch4KgPerTj: unseen(5),
    n2oKgPerTj: unseen(0.1),
  },
  firewood: {
    mjPerKg: ncv(15.6),
    kgPerL: null,
    mjPerM3: null,
    co2KgPerTj: co2(112_000),
    origin: "biogenic",
    ch4KgPerTj: small(300),
    n2oKgPerTj: small(4),
  },
  charcoal: {
    mjPerKg: ncv(29.5),
    kgPerL: null,
    mjPerM3: null,
    co2KgPerTj: co2(112_000),
    origin: "biogenic",
    ch4KgPerTj: small(200),
    n2oKgPerTj: small(1),
  },
  "other-biomass": {
    mjPerKg: ncv(11.6),
    kgPerL: null,
    mjPerM3: null,
    co2KgPerTj: co2(100_000),
    origin: "biogenic",
    ch4KgPerTj: unseen(300),
    n2oKgPerTj: unseen(4),
  },
  kerosene: {
    mjPerKg: ncv(43.8),
    kgPerL: { value: 0.8, source: "densities-unseen" },
    mjPerM3: null,
    co2KgPerTj: co2(71_900),
    origin: "fossil",
    ch4KgPerTj: small(10),
    n2oKgPerTj: small(0.6),
  },
  diesel: {
    mjPerKg: ncv(43.0),
    kgPerL: { value: 0.832, source: "jec-wtt-v5" },
    mjPerM3: null,
    co2KgPerTj: co2(74_100),
    origin: "fossil",
    ch4KgPerTj: unseen(10),
    n2oKgPerTj: unseen(0.6),
  },
  petrol: {
    mjPerKg: ncv(44.3),
    kgPerL: { value: 0.745, source: "densities-unseen" },
    mjPerM3: null,
    co2KgPerTj: co2(69_300),
    origin: "fossil",
    ch4KgPerTj: unseen(10),
    n2oKgPerTj: unseen(0.6),
  },
  // electricity has no CO2 until the programme names its grid's factor
  electricity: {
    mjPerKg: null,
    kgPerL: null,
    mjPerM3: null,
    co2KgPerTj: null,
    origin: "grid",
    ch4KgPerTj: null,
    n2oKgPerTj: null,
  },
};

export const MJ_PER_KWH: Sourced = { value: 3.6, source: "kilowatt-hour" };

/** 100-year warming potentials, kg CO2e per kg. Funders often hold on to an older set. */
export const GWP100 = {
  AR6: { ch4Fossil: 29.8, ch4Biogenic: 27.0, n2o: 273, source: "ipcc-ar6-gwp" },
  AR5: { ch4Fossil: 28, ch4Biogenic: 28, n2o: 265, source: "ipcc-ar5-gwp" },
} as const satisfies Record<string, { readonly source: SourceId } & Record<string, number | string>>;
export type GwpSet = keyof typeof GWP100;

/** Heat that water needs, kJ per kg. */
export const WATER = {
  evaporationAt25: { value: 2441.67, source: "nist-steam" },
  evaporationAt50: { value: 2381.96, source: "nist-steam" },
  evaporationAt100: { value: 2256.6, source: "iapws-saturation" },
  liquidAt25: { value: 104.83, source: "nist-steam" },
  liquidAt100: { value: 419.1, source: "iapws-saturation" },
} as const satisfies Record<string, Sourced>;

/** Least heat to warm water from 25 °C to 100 °C and boil it away: 2.571 MJ per kg. */
export const FLOOR_MJ_PER_KG = (WATER.liquidAt100.value - WATER.liquidAt25.value + WATER.evaporationAt100.value) / 1000;

/** Wood by its moisture: heat of oven-dry wood and of its water, MJ per kg. */
export const WOOD = {
  dryMjPerKg: { value: 19.0, source: "wood-fuels-handbook" },
  waterMjPerKg: { value: 2.44, source: "wood-fuels-handbook" },
} as const satisfies Record<string, Sourced>;

const practice = (value: number): Sourced => ({ value, source: "common-practice" });

/** What the trade commonly sees. None is a published norm, and none judges a batch. */
export const PRACTICE = {
  /** water in fresh larvae, share of mass, where nobody measured it */
  moistureInLow: practice(0.65),
  moistureInHigh: practice(0.77),
  /** a usual dry yield; more hints at incomplete drying, less at lost material */
  yieldUsualLow: practice(0.25),
  yieldUsualHigh: practice(0.35),
  /** MJ per kg driven off: below, fuel alone cannot have done it; above, worth a look */
  fuelImpossibleBelow: practice(2.4),
  fuelUnusualAbove: practice(20),
  /** mean fire power of a pan, kW */
  firepowerLow: practice(0.5),
  firepowerHigh: practice(40),
  /** gas that goes back in a cylinder called empty, kg */
  cylinderHeelKg: practice(0.5),
  /** a small load: kg fresh on as much sand, minutes, and minutes of preheating before the first */
  smallLoadKg: practice(1),
  smallLoadMinutesLow: practice(15),
  smallLoadMinutesHigh: practice(20),
  preheatMinutes: practice(15),
  larvaeReachCelsius: practice(180),
  sandCycles: practice(5),
  /** keeping of dried larvae in moisture-tight packs, months, below this water activity */
  keepsMonthsLow: practice(5),
  keepsMonthsHigh: practice(6),
  keepsBelowWaterActivity: practice(0.4),
} as const satisfies Record<string, Sourced>;
