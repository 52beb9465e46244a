import { type DayPoint, type Series, seriesOf } from "#server/drift/series";
import { fuelOf } from "#server/measures/fuelOf";
import { byDay } from "#server/measures/period";
import { sumOf } from "#server/statistics/sum";
import type { Method } from "#server/terms/batch";
import type { Fact, FactKind } from "#server/terms/facts";
import type { FuelSpan } from "#server/terms/fuel";
import type { DeclaredChange, StreamName, Watched } from "#server/terms/signal";
import type { DaySum, Summed } from "#server/terms/sums";

/** What the streams of a site are made of, up to the end of the last month asked for. */
export interface SitePast {
  readonly site: number;
  readonly sums: readonly DaySum[];
  readonly spans: readonly FuelSpan[];
  /** facts of this site */
  readonly facts: readonly Fact[];
}

/** A stream of a site with the changes that were declared; what was answered to its signals is not known here. */
export interface SiteStream {
  readonly name: StreamName & { readonly site: number };
  readonly series: Series;
  readonly declared: readonly DeclaredChange[];
}

/** Sums that the streams are made of. */
export const STREAM_SUMS: readonly Summed[] = ["here", "fresh", "dry-yield", "pan-time"];

/**
 * The streams of a site: dry yield and kg per pan-hour with a point for each working day, fuel per kg driven off with a point
 * for each window of fuel, told by its last day.
 *
 * Minutes per kg are the same days upside down: a chart of them would say everything twice and spend the false alarms
 * accepted on it.
 */
export function streamsOf({ site, sums, spans, facts }: SitePast): SiteStream[] {
  const methods = [...new Set(sums.map(({ method }) => method))].sort();
  return methods.flatMap((method) => {
    const own = sums.filter((sum) => sum.method === method);
    const points: [Watched, DayPoint[]][] = [
      ["dry-yield", daily(own, "dry-yield", 1)],
      ["throughput", daily(own, "pan-time", 1 / 60)],
      ["fuel-intensity", byWindow(sums, spans, facts, method)],
    ];
    return points
      .filter(([, days]) => days.length > 0)
      .map(([measure, days]) => ({
        name: { site, method, measure },
        series: seriesOf(days).series,
        declared: changesDeclared(facts, measure),
      }));
  });
}

function daily(sums: readonly DaySum[], measure: Summed, per: number): DayPoint[] {
  return byDay(sums, measure).map(({ day, num, den }) => ({ day, numerator: num, denominator: den * per }));
}

function byWindow(
  sums: readonly DaySum[],
  spans: readonly FuelSpan[],
  facts: readonly Fact[],
  method: Method,
): DayPoint[] {
  const days = sums.map(({ day }) => day).sort();
  const [from, to] = [days[0], days.at(-1)];
  if (from === undefined || to === undefined) return [];
  return fuelOf(sums, spans, facts, { from, to }, method).windows.flatMap((window) => {
    const day = window.days.at(-1);
    const heatMj = sumOf(window.pairedHeat, ({ bestMj }) => bestMj);
    const drivenOffKg = window.pairedFreshKg - window.driedKg;
    return day === undefined ? [] : [{ day, numerator: heatMj, denominator: drivenOffKg }];
  });
}

/** Declarations that begin a new reference, and which measures they touch; null: all. */
const BEGINS: readonly {
  readonly kind: FactKind;
  readonly what: DeclaredChange["what"];
  readonly touches: readonly Watched[] | null;
}[] = [
  { kind: "pans", what: "pan", touches: null },
  { kind: "fresh-weighed", what: "weighing-moment", touches: null },
  { kind: "dried-weighed", what: "weighing-moment", touches: ["dry-yield", "fuel-intensity"] },
  { kind: "scale-step", what: "scale", touches: null },
  { kind: "main-fuel", what: "other", touches: ["throughput", "fuel-intensity"] },
  { kind: "feed", what: "feed", touches: null },
  { kind: "log-layout", what: "log-layout", touches: null },
];

/** Declared only once something is different: the first of these after the site opened is a change as well. */
export const SAID_WHEN_CHANGED: readonly FactKind[] = ["feed", "log-layout"];

/**
 * Changes that a site declared, each on its first day. The first declaration of a kind changes nothing, unless it is one
 * that is made only when something became different.
 */
export function changesDeclared(facts: readonly Fact[], measure: Watched): DeclaredChange[] {
  const opened = facts.reduce<string | null>(
    (first, { kind, from }) => (kind === "open" && (first === null || from < first) ? from : first),
    null,
  );
  return BEGINS.filter(({ touches }) => touches === null || touches.includes(measure)).flatMap(({ kind, what }) => {
    const said = facts.filter((fact) => fact.kind === kind && fact.value !== null);
    return [...new Set(said.map(({ key }) => key))].flatMap((key) => {
      const dated = said
        .filter((fact) => fact.key === key)
        .sort((a, b) => (a.from < b.from ? -1 : a.from > b.from ? 1 : a.ledgerIndex - b.ledgerIndex));
      return dated.flatMap((fact, i) => {
        const before = dated[i - 1];
        const isLater = SAID_WHEN_CHANGED.includes(kind) && opened !== null && fact.from > opened;
        const changes = before === undefined ? isLater : JSON.stringify(before.value) !== JSON.stringify(fact.value);
        return changes ? [{ from: fact.from, what }] : [];
      });
    });
  });
}
