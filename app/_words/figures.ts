import type { Figure, NoFigure, RestsOn, Unit } from "#server/terms/figure";

/** Why there is no figure, in words that tell what would bring one. */
const REASONS: Record<NoFigure, string> = {
  "nothing-logged": "nothing logged",
  "no-batch-with-both-weights": "no batch with both weights",
  "no-batch-with-minutes": "no batch with minutes",
  "no-fresh-weight": "no fresh weight",
  "no-fuel-known": "no fuel known",
  "fuel-window-open": "the cylinder or fuel reading is still open",
  "fuel-shared-with-kitchen": "the fuel is shared with the kitchen",
  "fuel-of-several-methods": "the fuel is not told apart by drying method",
  "nothing-driven-off": "nothing was driven off",
  "pans-or-hours-not-declared": "pans or hours not declared",
  "owed-not-declared": "what was owed is not declared",
  "not-open": "not open",
  "nothing-owed": "nothing was owed",
  "nothing-produced-declared": "nothing produced, as declared",
  "dry-matter-not-declared": "dry matter of the larvae not declared",
  "no-factor-set": "no factor set",
};

/** How many digits after the point a unit is shown with, and what is written behind it. */
const SHOWN: Record<Unit, { readonly digits: number; readonly times?: number; readonly sign: string }> = {
  "kg/kg": { digits: 1, times: 100, sign: " %" },
  kg: { digits: 1, sign: " kg" },
  "kg/day": { digits: 1, sign: " kg per day" },
  "kg/pan-hour": { digits: 2, sign: " kg per pan-hour" },
  "MJ/kg": { digits: 2, sign: " MJ per kg" },
  "MJ/day": { digits: 1, sign: " MJ per firing day" },
  MJ: { digits: 0, sign: " MJ" },
  share: { digits: 0, times: 100, sign: " %" },
  count: { digits: 1, sign: "" },
  days: { digits: 0, sign: " days" },
  "minutes/kg": { digits: 1, sign: " minutes per kg" },
};

export function whyNone(why: NoFigure): string {
  return REASONS[why];
}

/** A value with its unit; rounded here and nowhere else. */
export function valueInWords(value: number, unit: Unit): string {
  return `${numberInWords(value, unit)}${SHOWN[unit].sign}`;
}

/** A value without its unit, with the digits that the unit is shown with. */
export function numberInWords(value: number, unit: Unit): string {
  const { digits, times = 1 } = SHOWN[unit];
  const shown = (value * times).toLocaleString("en-GB", {
    minimumFractionDigits: digits,
    maximumFractionDigits: digits,
  });
  return shown.replace("-", "−"); // a hyphen may break off at a line's end
}

/** "41 of 50 batches", or "41 batches" where nobody declared what was owed. */
export function restsOnInWords({ used, here, owed, of }: RestsOn): string {
  if (owed !== null) return `${used} of ${owed} ${of}`;
  return used === here ? `${used} ${of}` : `${used} of ${here} ${of} that are here`;
}

/** "31.2 to 34.8", how far the process itself varies; null where that is not known. */
export function intervalInWords(figure: Figure): string | null {
  if (!figure.known || figure.interval === null) return null;
  const { low, high } = figure.interval;
  return `${numberInWords(low, figure.unit)} to ${numberInWords(high, figure.unit)}`;
}

/** What the figure could have been, whatever the missing ones were; null where none are missing or no range is declared. */
export function missingInWords(figure: Figure): string | null {
  if (!figure.known || figure.missingRange === null) return null;
  const { missingRange, restsOn, unit } = figure;
  if ((restsOn.owed ?? 0) <= restsOn.used) return null;
  return `${numberInWords(missingRange.low, unit)} to ${numberInWords(missingRange.high, unit)} with whatever is missing`;
}

/** A figure in one line: value, interval, what it rests on; or why there is none. */
export function figureInWords(figure: Figure): string {
  if (!figure.known) return `none: ${REASONS[figure.why]}`;
  const interval = intervalInWords(figure);
  const missing = missingInWords(figure);
  return `${valueInWords(figure.value, figure.unit)}${interval === null ? "" : ` (${interval})`}, rests on ${restsOnInWords(figure.restsOn)}${missing === null ? "" : `, ${missing}`}`;
}
