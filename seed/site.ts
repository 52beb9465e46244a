import type { Method } from "#server/terms/batch";
import type { FactKind } from "#server/terms/facts";
import type { Fuel } from "#server/terms/fuel";
import type { Chance } from "./chance";

/** One declaration as the programme makes it. */
export interface Declared {
  readonly kind: FactKind;
  readonly key?: string;
  readonly from: string;
  readonly to?: string;
  readonly value: unknown;
}

/** What the site's scale shows. */
export interface Scale {
  readonly unit: "kg" | "g" | "lb";
  readonly step: number;
  readonly places: number;
}

/** How a site dries when nothing out of the ordinary happens. */
export interface Nature {
  readonly method: Method;
  readonly pans: number;
  readonly loadsPerDay: number;
  readonly loadKg: number;
  /** spread of the load's weight as a share; 0 where the load is fixed by recipe */
  readonly loadSpread: number;
  readonly weekdays: readonly number[];
  /** share of working days on which nothing is dried: no larvae, no gas, rain */
  readonly idleShare: number;
  /** moisture of fresh and dried larvae, wet basis */
  readonly freshMoisture: number;
  readonly driedMoisture: number;
  /** dry matter that stays in sand, sieve and pan, as a share */
  readonly loss: number;
  readonly minutesPerLoad: number;
  /** minute of the day at which the first load goes in */
  readonly firstMinute: number;
  readonly scale: Scale;
  readonly fuel: Fuel;
  /** share of the fuel's heat that reaches what is dried */
  readonly efficiency: number;
  /** burned once a day for each pan before the first load */
  readonly preheatMj: number;
  /** weight of a full cylinder's gas, where there is one */
  readonly cylinderKg: number | null;
  /** weight of the empty cylinder */
  readonly steelKg: number;
  /** what the fuel's scale or meter shows at best */
  readonly fuelStep: number;
  /** a cylinder stays on until the flame goes out, whatever the hour; elsewhere it is changed in the morning */
  readonly untilEmpty?: true;
}

/** One load as it was dried; weights in steps of the site's scale. */
export interface Load {
  /** within the day, and over the site's life */
  readonly number: number;
  readonly serial: number;
  readonly pan: number;
  readonly startMinute: number;
  readonly minutes: number;
  readonly freshSteps: number;
  readonly driedSteps: number;
  readonly newSand: boolean;
  readonly isCrisp: boolean;
}

/** One day's work. `fuel` in steps of the site's scale or meter. */
export interface Day {
  readonly day: string;
  readonly method: Method;
  readonly loads: readonly Load[];
  readonly fuelSteps: number;
  /** gas left in the cylinder in the morning and the evening, in steps */
  readonly gasBefore: number;
  readonly gasAfter: number;
  /** full cylinders put on before the first load */
  readonly cylindersOn: number;
}

/** A month of a site: the days that were written down, and the working days without work. */
export interface Book {
  readonly site: DemoSite;
  readonly nature: Nature;
  readonly month: string;
  /** months since the first of the scenario */
  readonly at: number;
  readonly days: readonly Day[];
  /** the last day written before this month, when the site worked in the month before */
  readonly before: Day | null;
  /** nothing will be written next month, so nothing can wait for it */
  readonly closesAfter: boolean;
  readonly idle: readonly string[];
  readonly holidays: readonly string[];
  readonly chance: Chance;
}

/** What a log truly says, for tests: weights of the rows that count, and the rows that somebody must look at. */
export interface Truth {
  readonly rows: number;
  readonly held: number;
  readonly loads: number;
  readonly freshKg: number;
  readonly driedKg: number;
  readonly minutes: number;
  /** amounts of fuel in the fuel's own unit, where the log gives amounts */
  readonly fuel: number;
  readonly cylinders: number;
}

export type Written =
  | { readonly name: string; readonly text: string; readonly encoding: Encoding; readonly truth: Truth }
  | { readonly name: string; readonly sheets: readonly WrittenSheet[]; readonly truth: Truth };

export type Encoding = "utf-8" | "utf-8 with mark" | "windows-1252" | "utf-16";

/** Days in a spreadsheet are dates; everything else stands as it is. */
export type SheetCell = string | number | { readonly day: string } | null;

export interface WrittenSheet {
  readonly name: string;
  readonly rows: readonly (readonly SheetCell[])[];
}

export interface DemoSite {
  readonly code: string;
  readonly name: string;
  readonly nature: Nature;
  /** how it dries after its method changed */
  readonly later?: Nature;
  /** declared when the site opens; `from` is the first day of the scenario or of the site */
  readonly declares: (from: string) => readonly Declared[];
  readonly write: (book: Book) => Written;
  /** share of the months whose log comes after the day it was due */
  readonly lateShare: number;
}
