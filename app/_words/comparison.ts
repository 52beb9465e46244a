import type { Alike } from "#server/compare/alike";
import type { Said } from "#server/compare/between";
import type { Withheld } from "#server/compare/claims";
import type { Cell, Peers } from "#server/compare/compareSites";
import type { Compared } from "#server/compare/entry";
import type { Places } from "#server/compare/places";
import type { Little } from "#server/compare/restsOnLittle";
import type { Unit } from "#server/terms/figure";
import { counted, listInWords } from "./days";
import { figureInWords, numberInWords, valueInWords } from "./figures";
import { FUEL_WORDS } from "./fuel";
import { METHOD_WORDS } from "./methods";

/** The columns of a comparison: name, unit and what a figure is worked out from. */
export const COMPARED_WORDS: Record<Compared, { readonly name: string; readonly unit: string; readonly from: string }> =
  {
    "dry-yield": { name: "Dry yield", unit: "kg dried per kg fresh, %", from: "kg fresh" },
    "fuel-per-driven-off": { name: "Fuel intensity", unit: "MJ per kg driven off", from: "kg driven off" },
    "fresh-per-pan-hour": { name: "Throughput", unit: "kg per pan-hour", from: "pan-hours" },
    "minutes-per-kg": { name: "Minutes per kg fresh", unit: "minutes per kg", from: "kg fresh" },
    "record-usable": { name: "Record", unit: "usable of what was owed, %", from: "owed" },
  };

/** Why a figure is drawn hollow. `of` is what it rests on. */
export function littleInWords(little: Little, of: string): string {
  switch (little.why) {
    case "few-days":
      return `${of === "fuel windows" ? counted(little.days, "fuel window") : counted(little.days, "day")}: not enough to compare`;
    case "wide-interval":
      return `the interval reaches ${percent(little.halfShare)} to either side: too wide to compare`;
    case "little-usable":
      return `${percent(little.share)} usable, below the mark of ${percent(little.mark)}: not compared`;
  }
}

const WITHHELD: Record<Withheld, string> = {
  "missing-could-overturn": "not said to be outside: what the missing loads were could turn it round",
  "missing-cannot-be-bounded":
    "not said to be outside: loads are missing, and what they could have been is not declared",
};

export function withheldInWords(why: Withheld): string {
  return WITHHELD[why];
}

/** "pans of hot sand, gas (LPG); fresh weighed drained, dried weighed cooled, after sieving". */
export function alikeInWords({ measure, method, fuel, anyFuel, freshWeighed, driedWeighed }: Alike): string {
  if (measure === "record-usable") return "all sites";
  const dryer = method === null ? "dryer not declared" : METHOD_WORDS[method];
  const heat = anyFuel ? "whatever the fuel" : fuel === null ? "main fuel not declared" : FUEL_WORDS[fuel];
  const plain = (word: string) => word.replaceAll("-", " ");
  const moments = [
    ...(freshWeighed === null ? [] : [`fresh weighed ${plain(freshWeighed.when)}`]),
    ...(driedWeighed === null ? [] : [`dried weighed ${plain(driedWeighed.when)}, ${plain(driedWeighed.sieved)}`]),
  ];
  return [`${dryer}, ${heat}`, ...moments].join("; ");
}

/** A cell's picture in words: the figure, what it lies over, and why it is hollow where it is. */
export function cellInWords(cell: Pick<Cell, "figure" | "little">, peers: Peers_ | null, measure: Compared): string {
  const { name } = COMPARED_WORDS[measure];
  const figure = figureInWords(cell.figure);
  const little = cell.little === null ? "" : ` Hollow: ${littleInWords(cell.little, cell.figure.restsOn.of)}.`;
  const band =
    peers?.middle == null
      ? ""
      : ` The middle half of ${peers.middle.of} sites with the same dryer and fuel: ${rangeInWords(peers.middle, cell.figure.unit)}.`;
  return `${name}: ${figure}.${band}${little}`;
}

type Peers_ = Pick<Peers, "middle">;

export function rangeInWords({ low, high }: { readonly low: number; readonly high: number }, unit: Unit): string {
  return `${numberInWords(low, unit)} to ${valueInWords(high, unit)}`;
}

/** How far sites that are alike differ, beyond what chance explains. */
export function spreadInWords({ spread, middle, alike, values }: SpreadSaid, unit: Unit): string {
  if (spread === null)
    return `${counted(values.length, "site")} with a figure that can be compared${alike > values.length ? `, of ${alike} that are alike` : ""}: too few to say how they differ.`;
  const mean = `common value ${valueInWords(spread.mean, unit)} (${numberInWords(spread.low, unit)} to ${numberInWords(spread.high, unit)})`;
  const band = middle === null ? "" : `; the middle half lies from ${rangeInWords(middle, unit)}`;
  if (spread.tau2 === 0) return `${spread.of} sites, ${mean}${band}. They differ by no more than chance.`;
  return `${spread.of} sites, ${mean}${band}. Beyond chance they differ by about ± ${valueInWords(Math.sqrt(spread.tau2), unit)}; chance explains ${percent(1 - spread.i2)} of the differences seen.`;
}

type SpreadSaid = Pick<Peers, "spread" | "middle" | "alike"> & { readonly values: readonly number[] };

/** Whom a group of sites stands beside that have too few of their own fuel; empty for a group of one fuel. */
export function setAmongInWords({ anyFuel }: Pick<Alike, "anyFuel">, names: string): string {
  return anyFuel ? `Set among them, since fewer than four share the fuel: ${names}.` : "";
}

/** What may be said about two sites in a measure, or why nothing is. */
export function betweenInWords(said: Said, measure: Compared, first: string, second: string): string {
  const { name, unit } = COMPARED_WORDS[measure];
  const steps = measure === "dry-yield" ? "points" : unit;
  switch (said.kind) {
    case "not-alike":
      return `${name}: not compared, since the two differ in dryer, fuel or weighing moments.`;
    case "rests-on-little":
      return `${name}: one of the two figures is missing or rests on too few days.`;
    case "withheld":
      return `${name}: nothing is said. ${said.why === "missing-could-overturn" ? "What the missing loads were could turn the difference round." : "Loads are missing, and what they could have been is not declared."}`;
    case "within-chance":
      return `${name}: the two differ by no more than chance (${signed(said.low, measure)} to ${signed(said.high, measure)} ${steps}).`;
    case "beyond-chance": {
      const [higher, lower] = said.difference > 0 ? [first, second] : [second, first];
      const [least = 0, most = 0] = [said.low, said.high].map(Math.abs).sort((a, b) => a - b);
      return `${name}: ${higher} is higher than ${lower} by ${plainly(Math.abs(said.difference), measure)} ${steps} (${plainly(least, measure)} to ${plainly(most, measure)}).`;
    }
  }
}

/** A difference in the figure of its column; of a yield in points of a hundred. */
function plainly(value: number, measure: Compared): string {
  const shown = measure === "dry-yield" ? value * 100 : value;
  return shown.toLocaleString("en-GB", { minimumFractionDigits: 2, maximumFractionDigits: 2 });
}

function signed(value: number, measure: Compared): string {
  return value < 0 ? `−${plainly(-value, measure)}` : plainly(value, measure);
}

/** "place 2 to 7 of 9, counted from the highest": never one place alone. */
export function placesInWords({ from, to, of }: Places): string {
  return from === to ? `no other place than ${from} of ${of}` : `place ${from} to ${to} of ${of}`;
}

/** Which sites lie outside their limits, how many chance would put there, and what is not said. */
export function outsideInWords(
  outside: readonly string[],
  withheld: readonly string[],
  expected: number,
  marked: boolean,
): string {
  if (!marked) return "With fewer than eight sites none is marked as lying outside.";
  const found =
    outside.length === 0
      ? "No site lies outside the outer limits"
      : `${listInWords(outside)} ${outside.length === 1 ? "lies" : "lie"} outside the outer limits`;
  const chance = `chance alone would put about ${expected.toLocaleString("en-GB", { maximumFractionDigits: 2 })} of them there`;
  const kept =
    withheld.length === 0
      ? ""
      : ` Of ${listInWords(withheld)} it is not said, since missing loads could turn it round.`;
  return `${found}; ${chance}.${kept}`;
}

/** "1 batch owed and not here". */
export function missingCount(count: number, of: "batches" | "loads" | "days"): string {
  const one = { batches: "batch", loads: "load", days: "day" }[of];
  return `${counted(count, one, of)} owed and not here`;
}

function percent(share: number): string {
  return `${(share * 100).toLocaleString("en-GB", { maximumFractionDigits: 0 })} %`;
}
