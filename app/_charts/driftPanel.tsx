import type { ReactElement } from "react";
import type { ChangeDrawn, DrawnDay } from "./changeDrawn";
import { across } from "./chart";
import styles from "./charts.module.css";
import { heightOn } from "./heightOn";
import { limitsOf } from "./limitsOf";
import type { Place } from "./timePanel";

export const DRIFT_HEIGHT = 150;

/** Recent days taken together, about the line of "as expected"; beyond the dashed lines a signal is told. */
export function driftPanel({ references }: ChangeDrawn, title: string, place: Place, top: number): ReactElement {
  const known = references.map((days) => days.filter(isKnown));
  const limits = known.flatMap(limitsOf);
  const most = Math.max(
    ...limits.map(({ value }) => value * 1.3),
    ...known.flat().map(({ chart }) => Math.abs(chart) * 1.08),
    0.1,
  );
  const up = heightOn(most, top, DRIFT_HEIGHT);
  return (
    <g>
      <line className={styles.axis} x1="1%" x2="92%" y1={up(0)} y2={up(0)} />
      {limits.map(({ from, to, value }) =>
        [value, -value].map((edge) => (
          <line
            key={`${from} ${edge}`}
            className={styles.outerLimit}
            x1={across(place(from))}
            x2={across(place(to, 1))}
            y1={up(edge)}
            y2={up(edge)}
          />
        )),
      )}
      {known.flatMap((days) =>
        days.map((one, i) => {
          const before = days[i - 1];
          // after a signal the chart begins anew at nothing
          if (before === undefined || before.raised !== null) return null;
          return (
            <line
              key={one.day}
              className={styles.line}
              x1={across(place(before.day, 0.5))}
              x2={across(place(one.day, 0.5))}
              y1={up(before.chart)}
              y2={up(one.chart)}
            />
          );
        }),
      )}
      {known
        .flat()
        .filter(({ raised }) => raised !== null)
        .map(({ day, chart }) => (
          <svg key={day} x={across(place(day, 0.5))} y={up(chart)} overflow="visible" aria-hidden="true">
            <circle className={styles.dot} r={2.5} />
            <circle className={styles.told} r={6.5} />
          </svg>
        ))}
      <text className={styles.title} x="1%" y={top + 12}>
        {title}
      </text>
      {edgeWords(limits.at(-1)?.value, up)}
    </g>
  );
}

function edgeWords(edge: number | undefined, up: (value: number) => number): ReactElement | null {
  if (edge === undefined) return null;
  return (
    <>
      <text className={styles.halo} x="99%" y={up(edge) + 4} textAnchor="end">
        limit
      </text>
      <text className={styles.halo} x="99%" y={up(0) + 4} textAnchor="end">
        as before
      </text>
      <text className={styles.halo} x="99%" y={up(-edge) + 4} textAnchor="end">
        limit
      </text>
    </>
  );
}

interface KnownDay extends DrawnDay {
  readonly chart: number;
}

function isKnown(one: DrawnDay): one is KnownDay {
  return one.chart !== null;
}
