import { daysBetween, daysOfMonth, monthOf, monthsBetween, plusMonths } from "#server/terms/days";
import { chanceOf } from "../chance";
import { isHoliday } from "../scenario";
import type { Book, Day, DemoSite } from "../site";
import { effectsOn, type Story } from "../stories";
import { work } from "./work";

/** What a site wrote down, month by month from its first day to the scenario's last; every time the same. */
export function booksOf(site: DemoSite, stories: readonly Story[], seed: number, first: string, last: string): Book[] {
  const own = stories.filter((story) => story.site === site.code);
  const opens = own.find(({ kind }) => kind === "new-site");
  const changed = own.find(({ kind }) => kind === "method-changed");
  const closedMonths = own.flatMap(({ kind, from }) => (kind === "nothing-produced" ? [monthOf(from)] : []));
  const natureOn = (day: string) =>
    changed !== undefined && day >= changed.from && site.later !== undefined ? site.later : site.nature;
  const from = opens?.from ?? daysOfMonth(first).from;
  const done = work(seed, site.code, {
    from,
    to: daysOfMonth(last).to,
    natureOn,
    effectsOn: (day) => effectsOn(stories, site.code, day),
    isFree: (day) => isHoliday(day) || closedMonths.includes(monthOf(day)),
    mostLoads: opens?.size ?? Number.POSITIVE_INFINITY,
  });
  const gaps = own.find(({ kind }) => kind === "days-not-logged");
  const unlogged = chanceOf(seed, `${site.code} not logged`);
  const logged = done.days.filter(() => unlogged.happens(gaps?.size ?? 1));
  const days = own.reduce((so, story) => (story.kind === "block-copied" ? withCopy(so, story) : so), logged);
  return monthsBetween(first, last)
    .filter((month) => month >= monthOf(from) && !closedMonths.includes(month))
    .map((month) => ({
      site,
      nature: natureOn(daysOfMonth(month).to),
      month,
      at: monthsBetween(first, month).length - 1,
      days: days.filter(({ day }) => monthOf(day) === month),
      before: closedMonths.includes(plusMonths(month, -1))
        ? null
        : (days.findLast(({ day }) => day < `${month}-01`) ?? null),
      closesAfter: closedMonths.includes(plusMonths(month, 1)),
      idle: gaps !== undefined ? [] : done.idle.filter((day) => monthOf(day) === month),
      holidays: daysBetween(`${month}-01`, daysOfMonth(month).to).filter((day) => isHoliday(day) && day >= from),
      chance: chanceOf(seed, writtenName(site, month)),
    }));
}

/** What the chance in writing a month is called by: a month written again has the same slips. */
export function writtenName(site: DemoSite, month: string): string {
  return `${site.code} ${month} written`;
}

/** The loads of `size` days from the story's first on, written again for as many days after them. */
function withCopy(days: readonly Day[], { from, to, size }: Story): Day[] {
  const first = days.findIndex(({ day }) => day >= from);
  return days.map((day, at) => {
    const source = days[at - size];
    const isCopy = at >= first + size && at < first + 2 * size && day.day <= to;
    return isCopy && source !== undefined ? { ...day, loads: source.loads } : day;
  });
}
