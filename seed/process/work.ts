import { daysBetween, weekday } from "#server/terms/days";
import { FUEL_FACTORS, MJ_PER_KWH } from "#server/terms/factors";
import { type Chance, chanceOf } from "../chance";
import type { Day, Load, Nature } from "../site";
import type { Effects } from "../stories";
import { lastingLuck } from "./luck";
import { type DayLuck, oneLoad } from "./oneLoad";
import { scaleKg } from "./scales";

export interface Work {
  readonly days: readonly Day[];
  /** working days on which nothing was dried */
  readonly idle: readonly string[];
}

export interface WorkOrder {
  readonly from: string;
  readonly to: string;
  readonly natureOn: (day: string) => Nature;
  readonly effectsOn: (day: string) => Effects;
  /** days on which nobody works */
  readonly isFree: (day: string) => boolean;
  readonly mostLoads: number;
}

const NEW_SAND_AFTER = 32;
const LAST_START = 1425;

/** A site's work day by day: loads on their pans, the fuel they took, cylinders put on when the last runs out. */
export function work(seed: number, site: string, order: WorkOrder): Work {
  const chance = chanceOf(seed, `${site} loads`);
  const calendar = chanceOf(seed, `${site} calendar`);
  const [feed, pace, fire] = ["feed", "pace", "fire"].map((name) => lastingLuck(chanceOf(seed, `${site} ${name}`)));
  const days: Day[] = [];
  const idle: string[] = [];
  const sand = new Map<number, number>();
  let gas = 0;
  let left = order.mostLoads;
  let serial = 0;
  for (const day of daysBetween(order.from, order.to)) {
    const luck: DayLuck = { feed: feed?.() ?? 0, pace: pace?.() ?? 0, fire: fire?.() ?? 0 };
    const nature = order.natureOn(day);
    const idles = calendar.happens(nature.idleShare);
    if (!nature.weekdays.includes(weekday(day)) || order.isFree(day) || left <= 0) continue;
    if (idles) {
      idle.push(day);
      continue;
    }
    const done = loadsOf(nature, order.effectsOn(day), luck, chance, sand, left);
    left -= done.loads.length;
    const loads = done.loads.map((load, at) => ({ ...load, number: at + 1, serial: serial + at + 1 }));
    serial += loads.length;
    const fuelSteps = Math.max(1, Math.round(done.fuelMj / mjPerUnit(nature) / nature.fuelStep));
    const full = nature.cylinderKg === null ? 0 : Math.round(nature.cylinderKg / nature.fuelStep);
    const kept = nature.untilEmpty ? gas : 0;
    const cylindersOn = nature.cylinderKg !== null && gas < fuelSteps ? Math.ceil((fuelSteps - kept) / full) : 0;
    if (cylindersOn > 0) gas = kept + cylindersOn * full;
    const gasBefore = gas;
    gas -= nature.cylinderKg === null ? 0 : fuelSteps;
    days.push({ day, method: nature.method, loads, fuelSteps, gasBefore, gasAfter: gas, cylindersOn });
  }
  return { days, idle };
}

function loadsOf(
  nature: Nature,
  effects: Effects,
  luck: DayLuck,
  chance: Chance,
  sand: Map<number, number>,
  most: number,
): { loads: Omit<Load, "number" | "serial">[]; fuelMj: number } {
  const count = Math.min(most, nature.loadsPerDay + (nature.loadsPerDay > 2 ? chance.pick([-1, 0, 0, 0, 0, 1]) : 0));
  const free = Array.from({ length: nature.pans }, (_, pan) => nature.firstMinute + 4 * pan + chance.whole(0, 6));
  const { unit, step } = nature.scale;
  const loads: Omit<Load, "number" | "serial">[] = [];
  let fuelMj = nature.preheatMj * Math.min(nature.pans, count);
  for (let at = 0; at < count; at++) {
    const pan = at % nature.pans;
    const startMinute = free[pan] ?? nature.firstMinute;
    const { freshKg, driedKg, minutes, fuelMj: burned } = oneLoad(nature, effects, luck, chance);
    const gap = chance.whole(6, 14);
    if (startMinute > LAST_START) break;
    free[pan] = startMinute + minutes + gap;
    fuelMj += burned;
    const age = nature.method === "sand-pan" ? (sand.get(pan) ?? NEW_SAND_AFTER) : 0;
    if (nature.method === "sand-pan") sand.set(pan, age >= NEW_SAND_AFTER ? 1 : age + 1);
    loads.push({
      pan: pan + 1,
      startMinute,
      minutes,
      freshSteps: Math.round(freshKg / scaleKg(unit) / step),
      driedSteps: Math.round(driedKg / scaleKg(unit) / step),
      newSand: age >= NEW_SAND_AFTER,
      isCrisp: chance.happens(0.97 - 2.2 * effects.driedMoisture),
    });
  }
  loads.sort((a, b) => a.startMinute - b.startMinute);
  return { loads, fuelMj };
}

/** Heat of one unit that the site counts its fuel in: a kg, or a kWh. */
function mjPerUnit({ fuel }: Nature): number {
  const mj = fuel === "electricity" ? MJ_PER_KWH.value : FUEL_FACTORS[fuel].mjPerKg?.value;
  if (mj === undefined) throw new Error(`nobody published the heat of ${fuel}`);
  return mj;
}
