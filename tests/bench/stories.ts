/**
 * The invented scenario under seeds that nobody tuned to. Each story is looked for all over the programme by somebody
 * who does not know where it was put; the logs go in by the same door as real ones. Told are how often a story is found, how
 * many days after it began it shows and can be read, how often the same is said of the same site and days in a year
 * without stories, and of sites in which nothing was put.
 *
 * npx tsx tests/bench/stories.ts [seeds, 20 by default] [first seed, 1001 by default]
 */
import { STORY_KINDS, type Story, type StoryKind } from "#seed/stories";
import { dayNumber, plusDays } from "#server/terms/days";
import { throwAway } from "../setup/postgres";
import { dryerChanged, nilMonth, recordThin, restsOnFew } from "./stories/inFigures";
import { blockCopied, sentAgain } from "./stories/inLogs";
import { correctedLater } from "./stories/inPublications";
import { anyOwnChange, ownChange, togetherChange } from "./stories/inSignals";
import { type Finder, type Finding, type Loaded, loaded } from "./stories/loaded";

/** How each kind is looked for, and for how many days after its end it may still be told. */
const LOOKS: Readonly<Record<StoryKind, { readonly find: Finder; readonly lateDays: number }>> = {
  "drying-cut-short": { find: ownChange("dry-yield", "up"), lateDays: 0 },
  "leaking-hose": { find: ownChange("fuel-intensity", "up"), lateDays: 14 },
  "tare-left-in": { find: ownChange("dry-yield", "up"), lateDays: 14 },
  "month-entered-twice": { find: sentAgain, lateDays: 0 },
  "block-copied": { find: blockCopied, lateDays: 0 },
  "days-not-logged": { find: recordThin, lateDays: 0 },
  "method-changed": { find: dryerChanged, lateDays: 0 },
  "wet-season": { find: togetherChange, lateDays: 45 },
  "new-site": { find: restsOnFew, lateDays: 0 },
  "nothing-produced": { find: nilMonth, lateDays: 0 },
  "late-correction": { find: correctedLater, lateDays: 0 },
};
/** Sites in whose weights and fuel nothing is put, outside the wet season. */
const QUIET: readonly string[] = ["MS", "UF", "WH"];
const RAIN_MONTHS = 5;

interface Tally {
  readonly after: number[];
  readonly told: number[];
  without: number;
  elsewhere: number;
}
const tallies = new Map<StoryKind, Tally>(
  STORY_KINDS.map((kind) => [kind, { after: [], told: [], without: 0, elsewhere: 0 }]),
);
const signals = { quiet: 0, calm: 0 };

const [seeds, firstSeed] = [Number(process.argv[2] ?? 20), Number(process.argv[3] ?? 1001)];
const started = await throwAway();
if (started === null) throw new Error("this bench needs PostgreSQL");
try {
  for (let seed = firstSeed; seed < firstSeed + seeds; seed++) await tell(seed, started.urls);
} finally {
  started.stop();
}
print();

async function tell(seed: number, urls: { readonly ownerUrl: string; readonly loginUrl: string }): Promise<void> {
  const [year, calm] = await Promise.all([loaded(seed, urls, []), loaded(seed, urls, STORY_KINDS)]);
  const rains = year.demo.stories.find(({ kind }) => kind === "wet-season");
  const inRains = (day: string) => rains !== undefined && day >= rains.from && day <= plusDays(rains.to, 45);
  for (const story of year.demo.stories) await look(story, year, calm, inRains);
  const own = await anyOwnChange(year);
  signals.quiet += own.filter(({ site, on }) => site !== null && QUIET.includes(site) && !inRains(on)).length;
  signals.calm += (await anyOwnChange(calm)).length + (await togetherChange(calm)).length;
  await year.close();
  await calm.close();
}

async function look(story: Story, year: Loaded, calm: Loaded, inRains: (day: string) => boolean): Promise<void> {
  const tally = tallies.get(story.kind);
  if (tally === undefined) return;
  const { find, lateDays } = LOOKS[story.kind];
  const isThis = ({ site, on }: Finding) =>
    site === story.site && on >= story.from && on <= plusDays(story.to, lateDays);
  const all = await find(year);
  const [first] = all.filter(isThis).sort((a, b) => (a.on < b.on ? -1 : 1));
  if (first !== undefined) {
    tally.after.push(dayNumber(first.on) - dayNumber(story.from));
    if (first.told !== null) tally.told.push(dayNumber(first.told.slice(0, 10)) - dayNumber(story.from));
  }
  const others = all.filter(({ site, on }) => site !== null && QUIET.includes(site) && !inRains(on));
  tally.elsewhere += others.filter((finding) => !isThis(finding)).length;
  if ((await find(calm)).some(isThis)) tally.without++;
}

function print(): void {
  const columns = (cells: readonly (string | number)[]) =>
    cells.map((cell, at) => (at === 0 ? String(cell).padEnd(20) : String(cell).padStart(14))).join("");
  console.log(columns(["story", "found", "shows after", "read after", "without it", "quiet sites"]));
  for (const [kind, { after, told, without, elsewhere }] of tallies) {
    const found = `${after.length} of ${seeds}`;
    console.log(columns([kind, found, days(after), days(told), `${without} of ${seeds}`, elsewhere]));
  }
  const quietMonths = seeds * QUIET.length * (12 - RAIN_MONTHS);
  console.log(
    `\nDays after the story began: median (longest). Quiet sites: findings at ${QUIET.join(", ")} outside the rains, ${quietMonths} site-months.`,
  );
  console.log(
    `Signals: ${(signals.quiet / quietMonths).toFixed(3)} a month and quiet site; in years without stories ${(signals.calm / seeds / 12).toFixed(2)} a month over all ten sites (1 a month is accepted).`,
  );
}

/** "23 (40)": the median, the lower of two, and the longest. */
function days(of: readonly number[]): string {
  const sorted = [...of].sort((a, b) => a - b);
  return sorted.length === 0 ? "–" : `${sorted[Math.floor((sorted.length - 1) / 2)]} (${sorted.at(-1)})`;
}
