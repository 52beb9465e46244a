import type { DemoSite } from "./site";
import { cattleBridge } from "./sites/cattleBridge";
import { lanternHill } from "./sites/lanternHill";
import { marketSteps } from "./sites/marketSteps";
import { oldJetty } from "./sites/oldJetty";
import { palmgrove } from "./sites/palmgrove";
import { quarryRoad } from "./sites/quarryRoad";
import { redKiln } from "./sites/redKiln";
import { saltLane } from "./sites/saltLane";
import { upperFerry } from "./sites/upperFerry";
import { weirHouse } from "./sites/weirHouse";

export const PROGRAMME = "Tamarind Coast Dried Feed Programme";

/** Months that the scenario covers. */
export const MONTHS = 12;

/** The sites of the programme, in the order in which they open. */
export const SITES: readonly DemoSite[] = [
  oldJetty,
  saltLane,
  upperFerry,
  palmgrove,
  redKiln,
  marketSteps,
  weirHouse,
  cattleBridge,
  lanternHill,
  quarryRoad,
];

/** Days on which nobody in the country works, as month and day. */
export const HOLIDAYS: readonly string[] = ["01-01", "03-21", "05-01", "08-12", "10-05", "12-25"];

export const isHoliday = (day: string): boolean => HOLIDAYS.includes(day.slice(5));
