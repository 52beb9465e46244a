import { lastWatched } from "#db/queries/signals";
import type { Tx } from "#db/store";
import { storiesOf } from "#server/drift/stories";
import { plusMonths } from "#server/terms/days";
import type { Person } from "#server/terms/person";
import type { Signal } from "#server/terms/signal";
import type { Inbox, SignalTold, StoryTold } from "#server/terms/signalTold";
import { signalsOf } from "./signals";
import { type Telling, tell, telling } from "./tellSignals";
import { type SignalRow, TOGETHER } from "./watchOrder";

/** Stories are looked for in so many months, and of those done with the latest are shown. */
const MONTHS = 12;
const MOST_DONE = 30;

/** Signals that wait for an answer, as stories, the costliest first; and those that were answered, or ended by themselves. */
export async function inboxOf(tx: Tx, size: number, person: Person): Promise<Inbox> {
  const month = await lastWatched(tx, size);
  if (month === null) return { open: [], answered: [], watchedTo: null };
  const rows = await signalsOf(tx, plusMonths(month, 1 - MONTHS), month, null, size);
  const stories = storiesTold(rows, await telling(tx, rows, size), person);
  const isOpen = ({ signals }: StoryTold) => signals.some(waits);
  return {
    open: stories.filter(isOpen).sort(byCost),
    answered: stories
      .filter((story) => !isOpen(story))
      .sort((a, b) => (a.firstRaisedOn < b.firstRaisedOn ? 1 : -1))
      .slice(0, MOST_DONE),
    watchedTo: month,
  };
}

/** Signals grouped by what they tell of, as a person may see them. */
export function storiesTold(rows: readonly SignalRow[], known: Telling, person: Person): StoryTold[] {
  const byRow = new Map<Signal, SignalTold>();
  for (const row of rows) {
    const [told] = tell([row], known, person);
    if (told !== undefined) byRow.set({ ...row, site: row.site === TOGETHER ? null : row.site }, told);
  }
  const toldOf = (signal: Signal | null) => (signal === null ? null : (byRow.get(signal) ?? null));
  const stories = storiesOf([...byRow.keys()]).map(({ site, signals, firstRaisedOn, partOf }): StoryTold => {
    const told = signals.flatMap((one) => toldOf(one) ?? []);
    const code = told[0]?.site ?? null;
    return {
      site: code,
      name: site === null ? null : (known.names.get(site) ?? code),
      signals: told,
      firstRaisedOn,
      partOf: toldOf(partOf),
      driedKg: largest((told.some(waits) ? told.filter(waits) : told).map(({ cost }) => cost.driedKg)),
    };
  });
  return stories.map((story) => (story.site === null ? { ...story, driedKg: costOfParts(story, stories) } : story));
}

function waits({ state, answer }: SignalTold): boolean {
  return state === "stands" && answer === null;
}

/** What sites did together costs what it costs them one by one. */
function costOfParts({ signals }: StoryTold, stories: readonly StoryTold[]): number | null {
  const parts = stories.filter(({ partOf }) => partOf !== null && signals.some(({ id }) => id === partOf.id));
  const costs = parts.flatMap(({ driedKg }) => driedKg ?? []);
  return costs.length === 0 ? null : costs.reduce((sum, cost) => sum + cost, 0);
}

function largest(costs: readonly (number | null)[]): number | null {
  const known = costs.filter((cost) => cost !== null);
  return known.length === 0 ? null : Math.max(...known);
}

function byCost(a: StoryTold, b: StoryTold): number {
  return (b.driedKg ?? -1) - (a.driedKg ?? -1) || (a.firstRaisedOn < b.firstRaisedOn ? 1 : -1);
}
