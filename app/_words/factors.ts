import type { FuelFactor, PRACTICE, WATER, WOOD } from "#server/terms/factors";

type Named = keyof typeof WATER | keyof typeof WOOD | keyof typeof PRACTICE | "ch4Fossil" | "ch4Biogenic" | "n2o";

/** What each number stands for, with its unit. */
export const FACTOR_WORDS: Record<Named, string> = {
  evaporationAt25: "Heat to evaporate water at 25 °C, kJ per kg",
  evaporationAt50: "Heat to evaporate water at 50 °C, kJ per kg",
  evaporationAt100: "Heat to evaporate water at 100 °C, kJ per kg",
  liquidAt25: "Heat held by water at 25 °C, kJ per kg",
  liquidAt100: "Heat held by water at 100 °C, kJ per kg",
  dryMjPerKg: "Heat of oven-dry wood, MJ per kg",
  waterMjPerKg: "Heat that the water in wood takes, MJ per kg",
  moistureInLow: "Water in fresh larvae, low, share of mass",
  moistureInHigh: "Water in fresh larvae, high, share of mass",
  yieldUsualLow: "Usual dry yield, low, kg per kg",
  yieldUsualHigh: "Usual dry yield, high, kg per kg",
  fuelImpossibleBelow: "Fuel below which something is missing, MJ per kg driven off",
  fuelUnusualAbove: "Fuel above which it is worth a look, MJ per kg driven off",
  firepowerLow: "Fire of a pan, low, kW",
  firepowerHigh: "Fire of a pan, high, kW",
  cylinderHeelKg: "Gas left in a cylinder called empty, kg",
  smallLoadKg: "A small load, kg fresh on as much sand",
  smallLoadMinutesLow: "Minutes of a small load, low",
  smallLoadMinutesHigh: "Minutes of a small load, high",
  preheatMinutes: "Minutes of preheating before the first load",
  larvaeReachCelsius: "What larvae reach on the sand, °C",
  sandCycles: "Loads on one fill of sand",
  keepsMonthsLow: "Dried larvae keep in moisture-tight packs, months, low",
  keepsMonthsHigh: "Dried larvae keep in moisture-tight packs, months, high",
  keepsBelowWaterActivity: "below this water activity",
  ch4Fossil: "Warming of methane from fossil fuels, kg CO2e per kg",
  ch4Biogenic: "Warming of methane from plant fuels, kg CO2e per kg",
  n2o: "Warming of nitrous oxide, kg CO2e per kg",
};

export const ORIGIN_WORDS: Record<FuelFactor["origin"], string> = {
  fossil: "fossil",
  biogenic: "a memo",
  grid: "as declared",
};
