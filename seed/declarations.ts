import { daysOfMonth, plusDays, plusMonths } from "#server/terms/days";
import { SITES } from "./scenario";
import type { Declared } from "./site";
import { dryerFacts } from "./sites/usualFacts";
import { effectsOn, type Story, type StoryKind } from "./stories";

export interface LaterDeclaration {
  readonly site: string;
  readonly at: string;
  readonly declarations: readonly Declared[];
}

/** Hours that pans of sand are hot on a working day. */
const PAN_HOURS = 5;

/**
 * What the programme and its sites declare on the way: oven tests, a change of method, a month without production,
 * repairs.
 */
export function laterDeclarations(stories: readonly Story[], first: string): LaterDeclaration[] {
  const told = (kind: StoryKind, declared: (story: Story) => LaterDeclaration[]) =>
    stories.filter((story) => story.kind === kind).flatMap(declared);
  const visit = plusDays(daysOfMonth(plusMonths(first, 6)).from, 13);
  const said: LaterDeclaration[] = [
    ...told("wet-season", (season) => ovenTests(stories, season)),
    ...told("method-changed", methodChange),
    ...told("leaking-hose", repair),
    ...told("nothing-produced", ({ site, from, to }) => [
      {
        site: site ?? "",
        at: `${plusDays(to, 2)}T08:00:00.000Z`,
        declarations: [{ kind: "nothing-produced", from, to, value: {} }],
      },
    ]),
    {
      site: "OJ",
      at: `${visit}T13:00:00.000Z`,
      declarations: [event(visit, "visit", "scale checked with a 5 kg weight")],
    },
  ];
  return said.sort((a, b) => (a.at < b.at ? -1 : 1));
}

/** Sites that dry a sample in an oven do it again when the rains have come and when they are over. */
function ovenTests(stories: readonly Story[], season: Story): LaterDeclaration[] {
  const measuring = SITES.filter(({ declares }) =>
    declares(season.from).some(({ kind, value }) => kind === "dry-matter" && isMeasured(value)),
  );
  return measuring.flatMap(({ code, nature }) =>
    [plusDays(season.from, 21), plusDays(season.to, 1)].map((day) => {
      const moisture = nature.freshMoisture + effectsOn(stories, code, day).freshMoisture;
      const value = { share: Math.round((1 - moisture) * 1000) / 1000, sd: 0.02, measured: true };
      return {
        site: code,
        at: `${day}T15:00:00.000Z`,
        declarations: [{ kind: "dry-matter", from: day, value } as const],
      };
    }),
  );
}

function isMeasured(value: unknown): boolean {
  return typeof value === "object" && value !== null && "measured" in value && value.measured === true;
}

function repair({ site, to }: Story): LaterDeclaration[] {
  const repaired = plusDays(to, 1);
  const declarations = [event(repaired, "repair", "hose and regulator replaced")];
  return [{ site: site ?? "", at: `${repaired}T10:00:00.000Z`, declarations }];
}

function methodChange({ site: code, from }: Story): LaterDeclaration[] {
  const later = SITES.find((site) => site.code === code)?.later;
  if (code === null || later === undefined) return [];
  const { weekdays, loadsPerDay: perDay } = later;
  const declarations: Declared[] = [
    ...dryerFacts(from, later),
    { kind: "hours", from, value: { perDay: PAN_HOURS } },
    { kind: "schedule", from, value: { weekdays: [...weekdays], perDay, of: "batches" } },
  ];
  return [{ site: code, at: `${from}T05:00:00.000Z`, declarations }];
}

function event(day: string, kind: string, text: string): Declared {
  return { kind: "event", key: `${kind} ${day}`, from: day, to: day, value: { kind, text } };
}
