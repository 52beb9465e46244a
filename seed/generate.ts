import { daysBetween, daysOfMonth, plusDays, plusMonths } from "#server/terms/days";
import { chanceOf } from "./chance";
import { laterDeclarations } from "./declarations";
import { booksOf, writtenName } from "./process/books";
import { isHoliday, MONTHS, SITES } from "./scenario";
import type { Book, Declared, DemoSite, Truth, Written } from "./site";
import { DUE } from "./sites/usualFacts";
import { PUBLISHED, type Story, type StoryKind, storiesFrom, storyOf } from "./stories";
import { copyOf, corrected } from "./writing/again";
import { encoded } from "./writing/table";
import { workbook } from "./writing/workbook";

/** A log as its site sends it. */
export interface DemoLog {
  readonly site: string;
  readonly month: string;
  readonly name: string;
  readonly bytes: Uint8Array;
  /** ISO 8601, UTC */
  readonly sentOn: string;
}

export interface DemoScenario {
  /** before anything happens: the clock with which the ledger should begin */
  readonly startsOn: string;
  readonly sites: readonly { readonly code: string; readonly at: string; readonly declarations: readonly Declared[] }[];
  /** what was declared later, and when */
  readonly declared: readonly {
    readonly site: string;
    readonly at: string;
    readonly declarations: readonly Declared[];
  }[];
  readonly logs: readonly DemoLog[];
  readonly publications: readonly { readonly site: string; readonly month: string; readonly at: string }[];
  /** for tests only: what was put in, and what each log truly says, in the order of the logs */
  readonly stories: readonly Story[];
  readonly truths: readonly Truth[];
}

/**
 * Twelve full months of the invented programme, the last of them `lastMonth`: what its sites declared, and their logs
 * as files, in the order in which they were sent. The same month and seed give the same bytes.
 *
 * `only` leaves out all sites but these, whose logs stay the same; `without` leaves out kinds of stories, and everything
 * that they do not touch stays the same.
 */
export async function scenario(
  lastMonth: string,
  seed: number,
  only: readonly string[] | null = null,
  without: readonly StoryKind[] = [],
): Promise<DemoScenario> {
  const first = plusMonths(lastMonth, 1 - MONTHS);
  const stories = storiesFrom(first, chanceOf(seed, "stories"), without);
  const sites = SITES.filter(({ code }) => only === null || only.includes(code));
  const written: (DemoLog & { truth: Truth })[] = [];
  for (const site of sites) {
    for (const book of booksOf(site, stories, seed, first, lastMonth)) {
      for (const { log, at } of writtenFor(book, stories, seed)) {
        const bytes = "text" in log ? encoded(log.text, log.encoding) : await workbook(log.sheets, new Date(at));
        written.push({ site: site.code, month: book.month, name: log.name, bytes, sentOn: at, truth: log.truth });
      }
    }
  }
  written.sort((a, b) => (a.sentOn < b.sentOn ? -1 : a.sentOn > b.sentOn ? 1 : a.site < b.site ? -1 : 1));
  const published = plusMonths(first, PUBLISHED);
  const holidays = daysBetween(daysOfMonth(first).from, daysOfMonth(lastMonth).to).filter(isHoliday);
  return {
    startsOn: `${daysOfMonth(first).from}T03:00:00.000Z`,
    sites: sites.map((site) => opening(site, stories, first, holidays)),
    declared: laterDeclarations(stories, first).filter(({ site }) => sites.some(({ code }) => code === site)),
    logs: written.map(({ truth: _, ...log }) => log),
    publications: sites
      .filter((site) => opensOn(site, stories, first) <= daysOfMonth(published).from)
      .map(({ code }) => ({
        site: code,
        month: published,
        at: `${plusMonths(published, 1)}-20T08:00:00.000Z`,
      })),
    stories,
    truths: written.map(({ truth }) => truth),
  };
}

/** The first day of a site in the scenario. */
function opensOn({ code }: DemoSite, stories: readonly Story[], first: string): string {
  return stories.find(({ kind, site }) => kind === "new-site" && site === code)?.from ?? daysOfMonth(first).from;
}

function opening(site: DemoSite, stories: readonly Story[], first: string, holidays: readonly string[]) {
  const from = opensOn(site, stories, first);
  const closed = holidays.map(
    (day): Declared => ({ kind: "closed", key: day, from: day, to: day, value: { reason: "public holiday" } }),
  );
  return {
    code: site.code,
    at: `${from}T04:00:00.000Z`,
    declarations: [...site.declares(from), ...closed.filter((one) => one.from >= from)],
  };
}

/** The log of a month when it was sent, and whatever was sent for the month once more. */
function writtenFor(book: Book, stories: readonly Story[], seed: number): { log: Written; at: string }[] {
  const { site, month } = book;
  const chance = chanceOf(seed, `${site.code} ${month} sent`);
  const clock = `T${String(chance.whole(6, 16)).padStart(2, "0")}:${String(chance.whole(0, 59)).padStart(2, "0")}:00.000Z`;
  const isLate = chance.happens(site.lateShare);
  const date = isLate ? DUE + chance.whole(2, 6) : chance.whole(1, 6);
  const next = plusMonths(month, 1);
  const sent = [{ log: site.write(book), at: `${next}-${String(date).padStart(2, "0")}${clock}` }];
  const about = (kind: Story["kind"]) =>
    stories.some((one) => one.kind === kind && one.site === site.code && one.from.startsWith(month));
  const sameBook = () => ({ ...book, chance: chanceOf(seed, writtenName(site, month)) });
  if (about("month-entered-twice"))
    sent.push({ log: copyOf(site.write(sameBook())), at: `${plusDays(`${next}-01`, 24)}${clock}` });
  if (about("late-correction"))
    sent.push({
      log: corrected(sameBook(), storyOf(stories, "late-correction").size),
      at: `${plusMonths(month, 2)}-12${clock}`,
    });
  return sent;
}
