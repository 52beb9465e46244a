import { dayNumber, daysOfMonth, plusDays, plusMonths } from "#server/terms/days";
import type { Chance } from "./chance";

export const STORY_KINDS = [
  "drying-cut-short",
  "leaking-hose",
  "tare-left-in",
  "month-entered-twice",
  "block-copied",
  "days-not-logged",
  "method-changed",
  "wet-season",
  "new-site",
  "nothing-produced",
  "late-correction",
] as const;
export type StoryKind = (typeof STORY_KINDS)[number];

/** Something out of the ordinary that the scenario holds: where, from when to when, and how much at its height. */
export interface Story {
  readonly kind: StoryKind;
  /** null: the whole programme */
  readonly site: string | null;
  readonly from: string;
  readonly to: string;
  /** share of moisture, factor of fuel, kg of tare, days copied or batches: as the kind says */
  readonly size: number;
}

/**
 * Everything that happens in the twelve months from `first` on, without the kinds left out. Chance moves the days by a
 * week or so, never the kinds.
 */
export function storiesFrom(first: string, chance: Chance, without: readonly StoryKind[] = []): Story[] {
  const month = (at: number) => daysOfMonth(plusMonths(first, at));
  const day = (at: number, date: number) => plusDays(month(at).from, date - 1 + chance.whole(-3, 3));
  const whole = (kind: StoryKind, site: string, at: number, size: number): Story => ({
    kind,
    site,
    ...month(at),
    size,
  });
  const end = month(11).to;
  const stories: Story[] = [
    { kind: "wet-season", site: null, from: day(4, 5), to: day(7, 1), size: 0.018 },
    { kind: "drying-cut-short", site: "OJ", from: day(7, 10), to: end, size: 0.09 },
    { kind: "leaking-hose", site: "SL", from: day(8, 15), to: day(10, 4), size: 1.45 },
    { kind: "tare-left-in", site: "RK", from: day(8, 4), to: day(9, 26), size: 0.5 },
    whole("month-entered-twice", "MS", 3, 1),
    { kind: "block-copied", site: "PG", from: day(5, 14), to: month(5).to, size: 6 },
    { kind: "days-not-logged", site: "CB", from: month(0).from, to: end, size: 0.6 },
    { kind: "method-changed", site: "QR", from: month(7).from, to: end, size: 1 },
    { kind: "new-site", site: "LH", from: plusDays(end, -9), to: end, size: 9 },
    whole("nothing-produced", "WH", 9, 0),
    whole("late-correction", "UF", PUBLISHED, 4),
  ];
  return stories.filter(({ kind }) => !without.includes(kind));
}

/** The month that the programme publishes, counted from the first. */
export const PUBLISHED = 2;

/** The one story of a kind. */
export function storyOf(stories: readonly Story[], kind: StoryKind): Story {
  const found = stories.find((story) => story.kind === kind);
  if (found === undefined) throw new Error(`the scenario has no story ${kind}`);
  return found;
}

/** What the stories change in one day of a site's work. */
export interface Effects {
  /** added to the moisture of what comes in and of what goes out */
  readonly freshMoisture: number;
  readonly driedMoisture: number;
  readonly minutes: number;
  readonly fuel: number;
  readonly tareKg: number;
  /** wet wood and charcoal give less heat */
  readonly wetness: number;
}

export function effectsOn(stories: readonly Story[], site: string, day: string): Effects {
  const on = (kind: StoryKind) =>
    stories.find(
      (story) => story.kind === kind && (story.site ?? site) === site && story.from <= day && day <= story.to,
    );
  const season = on("wet-season");
  const short = on("drying-cut-short");
  const wetness = season === undefined ? 0 : Math.min(1, 1.7 * Math.sin(Math.PI * progress(season, day)));
  const hurry = short === undefined ? 0 : Math.min(1, 1.3 * progress(short, day));
  return {
    freshMoisture: wetness * (season?.size ?? 0),
    driedMoisture: hurry * (short?.size ?? 0),
    minutes: (1 - 0.22 * hurry) * (1 + 0.06 * wetness),
    fuel: (on("leaking-hose")?.size ?? 1) * (1 - 0.1 * hurry),
    tareKg: on("tare-left-in")?.size ?? 0,
    wetness,
  };
}

/** 0 on the story's first day, 1 on its last. */
function progress({ from, to }: Story, day: string): number {
  return (dayNumber(day) - dayNumber(from)) / Math.max(1, dayNumber(to) - dayNumber(from));
}
