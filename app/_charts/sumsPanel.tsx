import type { ReactElement } from "react";
import type { Sums } from "./changeDrawn";
import { across } from "./chart";
import styles from "./charts.module.css";
import { heightOn } from "./heightOn";
import type { Place } from "./timePanel";

export const SUMS_HEIGHT = 130;

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
