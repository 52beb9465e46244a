import { daysOfMonth, plusDays, plusMonths } from "#server/terms/days";
import { SITES } from "./scenario";
import type { Declared } from "./site";
import { dryerFacts } from "./sites/common";
import { type Story, storyOf } from "./stories";

interface LaterDeclaration {
  readonly site: string;
  readonly at: string;
  readonly declarations: readonly Declared[];
}

/** What the programme and its sites declare on the way: a change of method, a month without production, repairs and visits. */
export function laterDeclarations(stories: readonly Story[], first: string): LaterDeclaration[] {
  const changed = storyOf(stories, "method-changed");
  const nothing = storyOf(stories, "nothing-produced");
  const leak = storyOf(stories, "leaking-hose");
  const later = SITES.find(({ code }) => code === changed.site)?.later;
  const event = (day: string, kind: string, text: string): Declared => ({
    kind: "event",
    key: `${kind} ${day}`,
    from: day,
    to: day,
    value: { kind, text },
  });
  const visit = plusDays(daysOfMonth(plusMonths(first, 6)).from, 13);
  const repaired = plusDays(leak.to, 1);
  const said: LaterDeclaration[] = [
    {
      site: "OJ",
      at: `${visit}T13:00:00.000Z`,
      declarations: [event(visit, "visit", "scale checked with a 5 kg weight")],
    },
    {
      site: leak.site ?? "",
      at: `${repaired}T10:00:00.000Z`,
      declarations: [event(repaired, "repair", "hose and regulator replaced")],
    },
    {
      site: nothing.site ?? "",
      at: `${plusDays(nothing.to, 2)}T08:00:00.000Z`,
      declarations: [{ kind: "nothing-produced", key: nothing.from, from: nothing.from, to: nothing.to, value: {} }],
    },
  ];
  if (later !== undefined) {
    const { weekdays, loadsPerDay } = later;
    said.push({
      site: changed.site ?? "",
      at: `${changed.from}T05:00:00.000Z`,
      declarations: [
        ...dryerFacts(changed.from, later),
        {
          kind: "schedule",
          from: changed.from,
          value: { weekdays: [...weekdays], perDay: loadsPerDay, of: "batches" },
        },
      ],
    });
  }
  return said.sort((a, b) => (a.at < b.at ? -1 : 1));
}
