import type { ReactElement } from "react";
import type { ChangeDrawn, DrawnDay, Sums } from "./changeDrawn";
import { across } from "./chart";
import styles from "./charts.module.css";
import { limitsOf } from "./limitsOf";
import type { Place } from "./timePanel";

export const DRIFT_HEIGHT = 150;
export const SUMS_HEIGHT = 130;
const TITLE = 22;
const FOOT = 6;

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

/** What went beyond the usual, added up to either side since it was last nothing: a view, without any limit. */
export function sumsPanel(sums: readonly Sums[], title: string, place: Place, top: number): ReactElement {
  const most = Math.max(...sums.flatMap((one) => [one.up, one.down]), 1) * 1.1;
  const up = heightOn(most, top, SUMS_HEIGHT);
  const side = (of: (one: Sums) => number, look: string | undefined) =>
    sums.map((one, i) => {
      const before = sums[i - 1];
      return before === undefined ? null : (
        <line
          key={one.day}
          className={look}
          x1={across(place(before.day, 0.5))}
          x2={across(place(one.day, 0.5))}
          y1={up(of(before))}
          y2={up(of(one))}
        />
      );
    });
  return (
    <g>
      <line className={styles.axis} x1="1%" x2="92%" y1={up(0)} y2={up(0)} />
      {side((one) => one.up, styles.line)}
      {side((one) => -one.down, styles.line)}
      <text className={styles.title} x="1%" y={top + 12}>
        {title}
      </text>
      <text className={styles.halo} x="99%" y={up(0) - 6} textAnchor="end">
        above
      </text>
      <text className={styles.halo} x="99%" y={up(0) + 13} textAnchor="end">
        below
      </text>
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

function heightOn(most: number, top: number, height: number): (value: number) => number {
  const [roof, ground] = [top + TITLE, top + height - FOOT];
  return (value) => Number(((roof + ground) / 2 - (value / most) * ((ground - roof) / 2)).toFixed(1));
}

interface KnownDay extends DrawnDay {
  readonly chart: number;
}

function isKnown(one: DrawnDay): one is KnownDay {
  return one.chart !== null;
}
