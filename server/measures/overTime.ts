import type { Method } from "#server/terms/batch";
import { dayNumber, dayOf, daysBetween, daysOfMonth, monthsBetween, weekday } from "#server/terms/days";
import { type Fact, inForce } from "#server/terms/facts";
import type { AsKnownOn, Figure } from "#server/terms/figure";
import type { FuelSpan } from "#server/terms/fuel";
import type { DaySum } from "#server/terms/sums";
import type { About } from "./about";
import { completeness } from "./completeness";
import { dryYield } from "./dryYield";
import { fuelPer } from "./fuelFigures";
import { type Fuel, fuelOf } from "./fuelOf";
import type { Numbered } from "./numberedSeries";
import { type Owed, owed } from "./owed";
import { byDay, type Period, within } from "./period";
import { freshPerPanHour } from "./throughput";

/** How finely a span of time is told. */
export type Step = "day" | "week" | "month";

/** A figure of some days, both ends in. */
export interface Point {
  readonly from: string;
  readonly to: string;
  readonly figure: Figure;
}

/** What of a site is told over time; one method, or null where nothing was ever dried. */
export interface MethodOverTime {
  readonly method: Method | null;
  readonly dryYield: readonly Point[];
  readonly fuelPerDrivenOff: readonly Point[];
  readonly freshPerPanHour: readonly Point[];
}

export interface PastInput {
  readonly period: Period;
  readonly step: Step;
  /** sums of the site, every method, as far back as its fuel reaches */
  readonly sums: readonly DaySum[];
  readonly spans: readonly FuelSpan[];
  /** facts of this site */
  readonly facts: readonly Fact[];
  readonly numbered: readonly Numbered[];
  readonly asKnownOn: AsKnownOn;
}

const MOST_DAYS = 62;
const MOST_WEEKS = 62;

/** Days up to two months, weeks up to fourteen, months beyond: so many points as a page can show, whatever is asked. */
export function stepFor({ from, to }: Period): Step {
  const days = dayNumber(to) - dayNumber(from) + 1;
  return days <= MOST_DAYS ? "day" : days <= 7 * MOST_WEEKS ? "week" : "month";
}

/** The steps of a period in order, without a gap; weeks begin on Monday (ISO 8601), and the ends are cut to the period. */
export function stepsOf(period: Period, step: Step): Period[] {
  const cut = ({ from, to }: Period) => ({
    from: from < period.from ? period.from : from,
    to: to > period.to ? period.to : to,
  });
  if (step === "month")
    return monthsBetween(period.from.slice(0, 7), period.to.slice(0, 7)).map((month) => cut(daysOfMonth(month)));
  const days = daysBetween(period.from, period.to);
  if (step === "day") return days.map((day) => ({ from: day, to: day }));
  return days
    .filter((day, i) => i === 0 || weekday(day) === 1)
    .map((day) => cut({ from: day, to: dayOf(dayNumber(day) + 7 - weekday(day)) }));
}

/** Share of what was owed that can be used for dry yield, step by step, of the site as a whole. */
export function recordOverTime(input: PastInput): Point[] {
  return stepsOf(input.period, input.step).flatMap((step) => {
    const { sums, due } = ofStep(input, step);
    const figure = completeness(sums, due, new Set(), input.asKnownOn).usableShares["dry-yield"];
    return isIdle(figure) ? [] : [{ ...step, figure }];
  });
}

/**
 * Dry yield and kg per pan-hour step by step, and MJ per kg driven off for each fuel window, method by method as they were
 * first used.
 *
 * Every point is the ratio of the sums of its days, as a month's figure is. A step in which something could have been
 * logged and was not is a point without a value; one in which the site was not open, owed nothing, or dried by another
 * method has no point. Windows that end in the same step are told together, so that gas weighed every evening does not
 * bring more points than the axis has steps.
 */
export function overTime(input: PastInput): MethodOverTime[] {
  const { period, spans, facts } = input;
  const inOrder = within(input.sums, period).sort((a, b) => (a.day < b.day ? -1 : Number(a.day > b.day)));
  const used = [...new Set(inOrder.map(({ method }) => method))];
  const methods: readonly (Method | null)[] = used.length === 0 ? [null] : used;
  return methods.map((method) => {
    const days = within(input.sums, period).flatMap((sum) => (sum.method === method ? [sum.day] : []));
    const [first = period.from, last = period.to] = methods.length === 1 ? [] : [days.sort()[0], days.at(-1)];
    const steps = stepsOf(period, input.step)
      .filter(({ from, to }) => to >= first && from <= last)
      .map((step) => ({ step, ...ofStep(input, step) }))
      .map(({ step, sums, due }) => {
        const own = sums.filter((sum) => sum.method === method);
        const nothing = due.why === null || due.why === "owed-not-declared" ? "nothing-logged" : due.why;
        const count = own.length === sums.length ? due.count : null;
        const about = aboutOf(input, { ...due, count }, own.length > 0 ? null : nothing);
        return { step, own, about, elsewhere: own.length === 0 && sums.length > 0 };
      })
      .filter(({ elsewhere }) => !elsewhere);
    const told = (figureOf: (sums: readonly DaySum[], about: About) => Figure) =>
      steps.flatMap(({ step, own, about }) => {
        const figure = figureOf(own, about);
        return isIdle(figure) ? [] : [{ ...step, figure }];
      });
    return {
      method,
      dryYield: told(dryYield),
      fuelPerDrivenOff: fuelPoints(input, fuelOf(input.sums, spans, facts, period, method)),
      freshPerPanHour: told(freshPerPanHour),
    };
  });
}

function ofStep({ sums: all, facts, numbered }: PastInput, step: Period) {
  const sums = within(all, step);
  const logged = byDay(sums, "here").map(({ day }) => day);
  return { sums, due: owed(step, facts, numbered, logged) };
}

type Due = Pick<Owed, "of" | "count" | "loadsEach">;

function aboutOf(input: PastInput, { of, count, loadsEach }: Due, nothing: About["nothing"]): About {
  const plausible = inForce(input.facts, "plausible", input.period.to);
  return { asKnownOn: input.asKnownOn, of, owed: count, plausible, loadsEach, nothing };
}

/** Nothing was to be logged, so nothing is missing. */
function isIdle(figure: Figure): boolean {
  return !figure.known && (figure.why === "not-open" || figure.why === "nothing-owed");
}

/** Windows by the step in which they end; a point reaches back over days without a load, so that only real gaps are gaps. */
function fuelPoints(input: PastInput, fuel: Fuel): Point[] {
  const logged = byDay(input.sums, "here").map(({ day }) => day);
  const about = aboutOf(input, { of: "batches", count: null, loadsEach: 1 }, null);
  const points: Point[] = [];
  for (const step of stepsOf(input.period, input.step)) {
    const windows = fuel.windows.filter(({ to, days }) => days.length > 0 && to >= step.from && to <= step.to);
    const [first, last] = [windows[0], windows.at(-1)];
    if (first === undefined || last === undefined) continue;
    const figure = fuelPer("driven-off", { ...fuel, windows, windowsWithKitchen: windows }, about);
    if (!figure.known) continue;
    const before = points.at(-1);
    const isTied = before !== undefined && !logged.some((day) => day > before.to && day < first.from);
    const from = isTied && before.to < first.from ? dayOf(dayNumber(before.to) + 1) : first.from;
    const shownFrom = [from, input.period.from].sort()[1] ?? from;
    points.push({ from: shownFrom, to: last.to, figure });
  }
  return points;
}
