import type { Reading } from "#server/drift/accepted";
import { poolsOf } from "#server/drift/pools";
import { heldTo, limitsOf, type ProgrammeStream } from "#server/drift/watchMonth";
import type { MonthHeld, WatchOrder } from "./watchOrder";
import { recordBefore, recordChance } from "./watchRecords";

/** Sites that joined since bring new limits once they add this much to the points planned. */
const JOINED = 1.1;

type Pools = ReturnType<typeof poolsOf>;
export type HeldAs = Omit<MonthHeld, "month" | "edition">;

/**
 * What a month's streams are held to: what was recorded when the month was first watched, so that late logs are judged by
 * the version of their month.
 *
 * Worked out anew only where streams joined that were not planned with, as when past months of more sites are sent:
 * limits for one site would promise too much for ten. A method and measure that is new joins the others as they stand.
 */
export function heldFor(
  streams: readonly ProgrammeStream[],
  month: string,
  { sites, today }: Pick<WatchOrder, "sites" | "today">,
  kept: HeldAs | undefined,
  said: { readonly perMonth: number; readonly reading: Reading },
  pools: () => Pools,
): HeldAs {
  const accepted = kept?.accepted ?? said.perMonth;
  const reading = kept?.reading ?? said.reading;
  const more = (now: number, then: number) => now > JOINED * then;
  if (
    kept === undefined ||
    more(limitsOf(streams, month, accepted, reading).pointsPerMonth, kept.limits.pointsPerMonth)
  ) {
    const held = heldTo(streams, month, accepted, reading, pools());
    const recording = sites.filter(({ record }) => record.some((one) => one.month <= month)).length;
    return {
      ...held,
      accepted,
      reading,
      recordChance: recordChance(held.limits.expected, recording),
      recordBefore: recordBefore(sites, month, today),
    };
  }
  const isNew = ({ name }: ProgrammeStream) =>
    !kept.groups.some(({ method, measure }) => method === name.method && measure === name.measure);
  const joined = streams.filter(isNew);
  if (joined.length === 0) return kept;
  const groups = heldTo(joined, month, accepted, reading, poolsOf(joined, month)).groups;
  const { edge } = kept.limits;
  return {
    ...kept,
    groups: [...kept.groups, ...groups.map((group) => ({ ...group, rules: { ...group.rules, edge } }))],
  };
}
