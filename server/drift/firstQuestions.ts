import { dayNumber } from "#server/terms/days";
import type { Change, Direction, FirstQuestion, Noticed, Watched } from "#server/terms/signal";

const ABOUT_LOG = {
  "log-layout": "did-the-log-change",
  unit: "did-the-unit-change",
  scale: "did-the-scale-change",
} as const satisfies Record<Noticed["what"], FirstQuestion>;

/** A change whose date is known no closer than this crept in. */
const SLOW_DAYS = 14;
/** A changed log within so many days of the span is taken to coincide. */
const NEAR_DAYS = 3;

/** In the order of asking: sudden, and crept in over weeks. */
const ASKED: Record<
  Watched,
  Record<Direction, { sudden: readonly FirstQuestion[]; slow?: readonly FirstQuestion[] }>
> = {
  "dry-yield": {
    up: {
      sudden: ["is-the-bowl-or-sand-in-the-weight", "is-it-taken-off-before-it-is-dry", "is-the-feed-drier"],
      slow: ["is-it-taken-off-before-it-is-dry", "is-sand-carried-over", "is-it-drained-before-weighing"],
    },
    down: {
      sudden: ["are-fines-left-in-the-sand", "is-some-used-before-weighing", "is-the-feed-wetter"],
      slow: ["is-the-sand-greasy-or-fine", "does-the-scale-drift", "are-the-larvae-younger"],
    },
  },
  "fuel-intensity": {
    up: { sudden: ["does-the-hose-or-regulator-leak", "is-the-burner-blocked-or-in-the-wind", "is-the-fuel-wet"] },
    down: { sudden: ["is-a-cylinder-not-logged", "is-it-dried-in-the-sun-first", "are-the-loads-larger"] },
  },
  "minutes-per-kg": {
    up: { sudden: ["is-the-gas-pressure-low", "is-the-sand-damp-or-the-pan-overloaded", "are-the-larvae-younger"] },
    down: { sudden: ["is-the-fire-too-hot", "are-the-larvae-smaller", "is-it-taken-off-before-it-is-dry"] },
  },
  throughput: {
    up: { sudden: ["is-the-fire-too-hot", "are-the-larvae-smaller", "is-it-taken-off-before-it-is-dry"] },
    down: { sudden: ["is-the-gas-pressure-low", "is-the-sand-damp-or-the-pan-overloaded", "is-preheating-counted"] },
  },
  completeness: {
    up: { sudden: ["did-the-writer-change", "did-the-log-change"] },
    down: { sudden: ["did-the-writer-change", "are-days-left-out", "are-weights-still-to-come"] },
  },
};

/** The first three questions to ask about a change, a changed log first. */
export function firstQuestions(
  measure: Watched,
  change: Pick<Change, "direction" | "sinceFrom" | "sinceTo">,
  noticed: readonly Noticed[] = [],
): FirstQuestion[] {
  const [from, to] = [dayNumber(change.sinceFrom), dayNumber(change.sinceTo)];
  const near = noticed.filter(({ day }) => dayNumber(day) >= from - NEAR_DAYS && dayNumber(day) <= to + NEAR_DAYS);
  const { sudden, slow } = ASKED[measure][change.direction];
  const own = to - from > SLOW_DAYS && slow !== undefined ? slow : sudden;
  return [...new Set<FirstQuestion>([...near.map(({ what }) => ABOUT_LOG[what]), ...own])].slice(0, 3);
}
