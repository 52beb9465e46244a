import type { Alike } from "./alike";
import { outsideWithheld, type Withheld } from "./claims";
import { COMPARED, type Compared, type Entry, type Measured } from "./entry";
import { FEWEST_FOR_LIMITS, type Funnel, type FunnelSite, funnelOf } from "./funnel";
import { groupsOf } from "./groups";
import { type MiddleHalf, middleHalf } from "./middleHalf";
import { type Places, placesOf } from "./places";
import { type Estimate, type Spread, spreadOf } from "./randomEffects";
import { type Little, restsOnLittle } from "./restsOnLittle";
import { type Shrunken, shrunken } from "./shrunken";

/** One figure of a site among its like. */
export interface Cell extends Measured {
  readonly little: Little | null;
  /** place in `peers` of the sites it is compared with; null where its drying method is not known */
  readonly peers: number | null;
  readonly shrunken: Shrunken | null;
  /** where it may stand among its like; null with too few or too many of them */
  readonly places: Places | null;
  /** its limits, whether it lies outside, and why that is not said */
  readonly limits: (FunnelSite & { readonly withheld: Withheld | null }) | null;
}

export interface Row extends Omit<Entry, "measured"> {
  readonly cells: Readonly<Record<Compared, Cell>>;
}

/** The sites that are compared with each other in one measure. */
export interface Peers extends Alike {
  /** those whose figure can be compared, and their values in the same order */
  readonly sites: readonly number[];
  readonly values: readonly number[];
  /** all that are alike, also those without a figure or with one that rests on little */
  readonly alike: number;
  readonly middle: MiddleHalf | null;
  /** null for fewer than five sites: nothing is said about how they differ */
  readonly spread: Spread | null;
  readonly funnel: Omit<Funnel, "sites"> | null;
}

export interface Comparison {
  /** by site, then by method */
  readonly rows: readonly Row[];
  readonly peers: readonly Peers[];
}

/**
 * Sets sites side by side, each among those with the same dryer, fuel and weighing moments.
 *
 * Figures that rest on little, or on nothing, stand in their row and move nobody else's: the middle half, the spread and
 * the limits are worked out from the others alone. A site counts once, whatever it weighs, in the middle half; in the
 * common value of the limits it counts by its mass. The order of the entries makes no difference.
 */
export function compareSites(given: readonly Entry[], usableMark: number): Comparison {
  const entries = [...given].sort((a, b) => a.site - b.site || texts(a.method ?? "", b.method ?? ""));
  const peers: Peers[] = [];
  const rows = entries.map((entry) => ({ ...entry, cells: new Map<Compared, Cell>() }));
  for (const measure of COMPARED) {
    const cells = entries.map(({ measured }) => alone(measured[measure], usableMark));
    const groups = groupsOf(measure, entries, cells.map(isComparable));
    for (const key of [...groups.keys()].sort(texts)) {
      const { alike, members, asking } = groups.get(key)!;
      if (asking.size === 0) continue;
      const among = amongPeers(
        members.map((at) => cells[at]!),
        peers.length,
      );
      for (const [i, at] of members.entries()) if (asking.has(at)) rows[at]!.cells.set(measure, among.cells[i]!);
      const comparable = members.filter((at) => isComparable(cells[at]!));
      const sites = comparable.map((at) => entries[at]!.site);
      const values = comparable.flatMap((at) => knownValue(cells[at]!));
      peers.push({ ...alike, sites, values, alike: members.length, ...among.peers });
    }
    for (const [at, cell] of cells.entries()) if (!rows[at]!.cells.has(measure)) rows[at]!.cells.set(measure, cell);
  }
  return { rows: rows.map(({ measured: _, cells, ...row }) => ({ ...row, cells: asRecord(cells) })), peers };
}

function alone(measured: Measured, mark: number): Cell {
  return {
    ...measured,
    little: restsOnLittle(measured, mark),
    peers: null,
    shrunken: null,
    places: null,
    limits: null,
  };
}

/** A site of which nothing is here has a share of nothing: that is told in its own row and moves no other. */
function isComparable({ figure, little }: Cell): boolean {
  return figure.known && little === null && figure.restsOn.here > 0;
}

function knownValue({ figure }: Cell): number[] {
  return figure.known ? [figure.value] : [];
}

function amongPeers(
  cells: readonly Cell[],
  at: number,
): { cells: readonly Cell[]; peers: Pick<Peers, "middle" | "spread" | "funnel"> } {
  const comparable = cells.filter(isComparable);
  const middle = middleHalf(comparable.flatMap(knownValue));
  const told = comparable.flatMap((cell) => {
    const estimate = estimateOf(cell);
    return estimate === null ? [] : [{ cell, estimate: { ...estimate, mass: cell.mass } }];
  });
  const estimates = told.map(({ estimate }) => estimate);
  const spread = told.length < FEWEST_FOR_LIMITS ? null : spreadOf(estimates);
  const drawnIn = spread === null ? [] : estimates.map((estimate) => shrunken(estimate, spread));
  const places = placesOf(drawnIn);
  const { sites = [], ...funnel } = funnelOf(estimates) ?? { sites: [] };
  const placed = new Map(told.map(({ cell }, place) => [cell, place]));
  return {
    peers: { middle, spread, funnel: "target" in funnel ? funnel : null },
    cells: cells.map((cell) => {
      const place = placed.get(cell) ?? -1;
      const limits = sites[place];
      return {
        ...cell,
        peers: at,
        shrunken: drawnIn[place] ?? null,
        places: places[place] ?? null,
        limits: limits === undefined ? null : { ...limits, withheld: outsideWithheld(cell, limits) },
      };
    }),
  };
}

/** A value with an error; one whose days are all the same to the last digit has none and is told nothing about. */
function estimateOf({ figure, se }: Cell): Estimate | null {
  return figure.known && se !== null && se > 0 ? { value: figure.value, se } : null;
}

function asRecord(cells: ReadonlyMap<Compared, Cell>): Record<Compared, Cell> {
  const of = (measure: Compared) => cells.get(measure)!;
  return {
    "dry-yield": of("dry-yield"),
    "fuel-per-driven-off": of("fuel-per-driven-off"),
    "fresh-per-pan-hour": of("fresh-per-pan-hour"),
    "minutes-per-kg": of("minutes-per-kg"),
    "record-usable": of("record-usable"),
  };
}

function texts(a: string, b: string): number {
  return a < b ? -1 : Number(a > b);
}
