import { type Alike, alikeIn, keyOf, withAnyFuel } from "./alike";
import type { Compared, Entry } from "./entry";
import { FEWEST_FOR_MIDDLE } from "./middleHalf";

/** Entries that are alike in a measure. */
export interface Group {
  readonly alike: Alike;
  /** places of all entries that are alike */
  readonly members: number[];
  /** those of them that are compared within this group */
  readonly asking: Set<number>;
}

/**
 * Groups of alike entries, by key. An entry whose dryer and fuel too few comparable sites share is compared, where the
 * measure allows it, with the sites of its dryer whatever their fuel.
 */
export function groupsOf(
  measure: Compared,
  entries: readonly Entry[],
  comparable: readonly boolean[],
): Map<string, Group> {
  const groups = new Map<string, Group>();
  const groupOf = (alike: Alike) => {
    const group = groups.get(keyOf(alike)) ?? { alike, members: [], asking: new Set<number>() };
    groups.set(keyOf(alike), group);
    return group;
  };
  const chosen = entries.map((entry) => alikeIn(measure, entry));
  const wider = chosen.map((alike) => alike && withAnyFuel(alike));
  for (const [at, alike] of chosen.entries()) if (alike) groupOf(alike).members.push(at);
  for (const [at, alike] of wider.entries()) if (alike) groupOf(alike).members.push(at);
  const enough = ({ members }: Group) => members.filter((at) => comparable[at]).length >= FEWEST_FOR_MIDDLE;
  for (const [at, alike] of chosen.entries()) {
    if (alike === null) continue;
    const [own, wide] = [groupOf(alike), wider[at]];
    const widened = wide ? groupOf(wide) : null;
    (enough(own) || widened === null || !enough(widened) ? own : widened).asking.add(at);
  }
  return groups;
}
