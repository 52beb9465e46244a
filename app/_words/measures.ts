import type { Measure } from "#server/measures/siteFigures";
import type { SourceId } from "#server/terms/sources";

export interface MeasureWords {
  readonly name: string;
  /** what it tells, in one sentence */
  readonly tells: string;
  /** how it is worked out, as a line of arithmetic in words */
  readonly formula: string;
  /** how it is counted and why so, and when there is none */
  readonly counted: string;
  readonly sources: readonly SourceId[];
}

const WINDOWS =
  "Fuel is laid against what was dried on exactly the days on which it burned, from one fuel reading to the next. A reading that is still open, fuel that the kitchen shares, and days with several ways of drying are left out, and said.";
const DAYS =
  "The interval is by day (Student's t), since loads of one day share fire, sand and larvae; there is none with fewer than five days.";
const GASES =
  "Each span of fuel counts whole in the month in which it ends. These lines stand beside each other and are not added up.";

/** Every figure of a month in words; a figure without words does not compile. In the order in which they are shown. */
export const MEASURE_WORDS: Record<Measure, MeasureWords> = {
  fresh: {
    name: "Fresh in",
    tells: "Fresh larvae that went on the fire, as weighed.",
    formula: "Σ fresh weight",
    counted: "Every load with a fresh weight. There is none where no load has one.",
    sources: [],
  },
  dried: {
    name: "Dried out",
    tells: "Dried larvae that came off the fire, as weighed.",
    formula: "Σ dried weight",
    counted: "Loads with both weights. A dried weight that is still to come is not in it, and is said.",
    sources: [],
  },
  "dry-yield": {
    name: "Dry yield",
    tells:
      "Kilograms dried for each kilogram fresh. A higher one is not a better one: it may mean wetter product, a tare left in, or drier larvae.",
    formula: "Σ dried ÷ Σ fresh, over loads with both weights",
    counted: `Total over total, never the mean of the loads' own yields, so that a small trial weighs less than a full pan. ${DAYS} The steps of the scales are added to it.`,
    sources: ["cochran-sampling"],
  },
  "driven-off": {
    name: "Driven off",
    tells: "Mass that left on the fire, mostly water.",
    formula: "Σ fresh − Σ dried, over loads with both weights",
    counted: "Loads with both weights.",
    sources: [],
  },
  "fresh-per-day": {
    name: "Throughput by day",
    tells: "Kilograms fresh on a day on which the site dried.",
    formula: "Σ fresh ÷ days with any load",
    counted: `Days on which no load has a fresh weight are left out, since unknown is not nothing. ${DAYS}`,
    sources: ["cochran-sampling"],
  },
  "fresh-per-pan-hour": {
    name: "Throughput by pan-hour",
    tells: "Kilograms fresh for each hour that a pan was on the fire.",
    formula: "Σ fresh ÷ (Σ pan-minutes ÷ 60), over loads with both",
    counted: `Two pans for one hour are two pan-hours. ${DAYS}`,
    sources: ["cochran-sampling"],
  },
  "roasting-share": {
    name: "Roasting share of pan hours",
    tells:
      "How much of the declared pan hours was spent roasting. Loading and sieving fill the rest, so 100 % is never reached.",
    formula: "Σ pan-minutes ÷ (pans × hours a day × 60), over days with minutes",
    counted:
      "Needs pans and hours as the site declared them. Above 100 % the record or the declaration is wrong; it is not clipped.",
    sources: [],
  },
  "minutes-per-kg": {
    name: "Minutes per kg fresh",
    tells: "Pan-minutes on the fire for each kilogram fresh.",
    formula: "Σ pan-minutes ÷ Σ fresh, over loads with both",
    counted: DAYS,
    sources: ["cochran-sampling"],
  },
  "fuel-per-driven-off": {
    name: "Fuel intensity, MJ per kg driven off",
    tells:
      "Heat in the fuel for each kilogram driven off. It needs no moisture reading and has a floor: below what water takes to evaporate, fuel is missing from the record, and nobody was thrifty.",
    formula: "Σ heat of the fuel ÷ Σ driven off, over the same days",
    counted: `${WINDOWS} The interval joins the scatter between readings (from five on) with what is not known of each amount.`,
    sources: ["ipcc-2006-ncv", "nist-steam", "iapws-saturation"],
  },
  "fuel-per-dried": {
    name: "Fuel per kg dried",
    tells: "What a kilogram of product costs in heat.",
    formula: "Σ heat of the fuel ÷ Σ dried, over the same days",
    counted: WINDOWS,
    sources: ["ipcc-2006-ncv"],
  },
  "fuel-per-fresh": {
    name: "Fuel per kg fresh",
    tells: "Heat in the fuel for each kilogram that went on the fire.",
    formula: "Σ heat of the fuel ÷ Σ fresh, over the same days",
    counted: WINDOWS,
    sources: ["ipcc-2006-ncv"],
  },
  "fuel-per-firing-day": {
    name: "Fuel per firing day",
    tells: "Preheating burns once a day whatever the loads, so look at loads per firing day beside it.",
    formula: "Σ heat of the fuel ÷ days with any load, over the same days",
    counted: WINDOWS,
    sources: ["ipcc-2006-ncv"],
  },
  "loads-per-firing-day": {
    name: "Loads per firing day",
    tells: "How many loads share one preheating.",
    formula: "Σ loads ÷ days with any load, over the days of the fuel figures",
    counted: WINDOWS,
    sources: [],
  },
  heat: {
    name: "Heat of the fuel",
    tells: "What the fuel of the month held, on net calorific value.",
    formula: "Σ amount of fuel × MJ per unit",
    counted: GASES,
    sources: ["ipcc-2006-ncv", "kilowatt-hour"],
  },
  "fossil-co2": {
    name: "Fossil CO2",
    tells: "From gas, kerosene, diesel and petrol.",
    formula: "Σ heat × kg CO2 per MJ, of fossil fuels",
    counted: `${GASES} A month that burned wood alone has 0 kg; a month without known fuel has none.`,
    sources: ["ipcc-2006-ncv", "ipcc-2006-co2"],
  },
  "biogenic-co2": {
    name: "Biogenic CO2, as a memo",
    tells: "From wood, charcoal, biogas and plant waste. Never added to fossil CO2.",
    formula: "Σ heat × kg CO2 per MJ, of plant fuels",
    counted: GASES,
    sources: ["ipcc-2006-ncv", "ipcc-2006-co2"],
  },
  "electricity-co2": {
    name: "CO2 of electricity",
    tells: "Only once the programme names its grid's factor.",
    formula: "Σ kWh × kg CO2 per kWh, as declared",
    counted: GASES,
    sources: ["kilowatt-hour"],
  },
  "ch4-co2e": {
    name: "Methane, as CO2e",
    tells: "From small burners; of plant fuels too.",
    formula: "Σ heat × kg CH4 per MJ × warming potential over 100 years",
    counted: GASES,
    sources: ["ipcc-2006-small-burners", "ipcc-2006-small-burners-unseen", "ipcc-ar6-gwp"],
  },
  "n2o-co2e": {
    name: "Nitrous oxide, as CO2e",
    tells: "From small burners; of plant fuels too.",
    formula: "Σ heat × kg N2O per MJ × warming potential over 100 years",
    counted: GASES,
    sources: ["ipcc-2006-small-burners", "ipcc-2006-small-burners-unseen", "ipcc-ar6-gwp"],
  },
  "record-here": {
    name: "Record: here",
    tells: "How much of what was owed has arrived.",
    formula: "here ÷ owed, at most 1",
    counted:
      "Owed is what an unbroken series of numbers or the declared schedule says; it is never set to what came. Closed days, months without production and days before opening are not owed. What is here beyond what was owed is shown and not credited.",
    sources: [],
  },
  "record-in-time": {
    name: "Record: in time",
    tells: "How much of what was owed was here by the day it was due.",
    formula: "in time ÷ owed, at most 1",
    counted: "By the site's own calendar day.",
    sources: [],
  },
  "record-usable": {
    name: "Record: usable for dry yield",
    tells: "How much of what was owed has both weights.",
    formula: "loads with both weights ÷ owed, at most 1",
    counted: "A load can serve throughput and not yield: each figure has its own count.",
    sources: [],
  },
  "moisture-left": {
    name: "Moisture left, if only water went",
    tells: "A weak witness: handling losses make it look drier than it is. It never says that a batch is dry enough.",
    formula: "1 − dry matter of the fresh larvae ÷ dry yield",
    counted:
      "Needs the dry matter of the larvae. The interval joins its error with that of the yield. An assumed dry matter draws a band and raises no question.",
    sources: ["irri-moisture", "common-practice"],
  },
};

/** How the figures stand together on a page. */
export const GROUPS: readonly { readonly name: string; readonly measures: readonly Measure[] }[] = [
  { name: "Mass", measures: ["fresh", "dried", "driven-off", "dry-yield", "moisture-left"] },
  { name: "Throughput", measures: ["fresh-per-pan-hour", "fresh-per-day", "minutes-per-kg", "roasting-share"] },
  {
    name: "Fuel",
    measures: [
      "fuel-per-driven-off",
      "fuel-per-dried",
      "fuel-per-fresh",
      "fuel-per-firing-day",
      "loads-per-firing-day",
      "heat",
    ],
  },
  { name: "Gases of the fuel", measures: ["fossil-co2", "biogenic-co2", "electricity-co2", "ch4-co2e", "n2o-co2e"] },
  { name: "Record", measures: ["record-here", "record-in-time", "record-usable"] },
];
