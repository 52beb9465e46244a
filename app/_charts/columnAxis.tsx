import type { ReactElement } from "react";
import { across } from "./chart";
import styles from "./charts.module.css";
import { placeOn, type Scale } from "./scale";
import { ticksOn } from "./ticks";

/** The scale of a column, drawn once at its head; the cells below it share it. `words` writes a value without its unit. */
export function columnAxis(scale: Scale, words: (value: number) => string): ReactElement {
  return (
    <svg className={styles.picture} height={20} aria-hidden="true">
      <line className={styles.axis} x1="0" x2="100%" y1={19} y2={19} />
      {ticksOn(scale, 3).map((tick) => {
        const at = placeOn(scale, tick);
        const anchor = at < 8 ? "start" : at > 92 ? "end" : "middle";
        return (
          <g key={tick}>
            <line className={styles.axis} x1={across(at)} x2={across(at)} y1={15} y2={19} />
            <text className={styles.words} x={across(at)} y={11} textAnchor={anchor}>
              {words(tick).replace(/\.0+$/, "")}
            </text>
          </g>
        );
      })}
    </svg>
  );
}
