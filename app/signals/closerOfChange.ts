import type { ChangeDrawn } from "../_charts/changeDrawn";
import { limitsOf } from "../_charts/limitsOf";
import { DRIFT_TITLE } from "../_words/signalChart";
import type { Closer, CloserPanel } from "../sites/[code]/closerOf";

/** The same picture to move about in: days with the range that each could have had, and recent days with their limits. */
export function closerOfChange(
  drawn: ChangeDrawn,
  { short, long }: { readonly short: string; readonly long: string },
): Closer {
  const days = drawn.references.flat();
  const charted = days.flatMap(({ day, chart }) =>
    chart === null ? [] : [{ from: day, to: day, value: rounded(chart) }],
  );
  const limits = limitsOf(days).flatMap((run) => [run, { ...run, value: -run.value }]);
  const panels: CloserPanel[] = [
    {
      title: drawn.valueTitle,
      unit: drawn.unit,
      mark: null,
      levels: drawn.levels,
      points: days.map(({ day, value, low, high, state }) => ({
        from: day,
        to: day,
        value: rounded(value),
        ...(low === null || high === null ? {} : { low: rounded(low), high: rounded(high) }),
        ...(state === "scored" ? {} : { hollow: true as const }),
      })),
    },
    ...(charted.length === 0
      ? []
      : [{ title: DRIFT_TITLE, unit: "count" as const, mark: null, levels: limits, points: charted }]),
  ];
  return { short, long, from: drawn.from, to: drawn.to, panels, events: drawn.events };
}

/** Five digits are more than a screen shows. */
function rounded(value: number): number {
  return Number(value.toPrecision(5));
}
