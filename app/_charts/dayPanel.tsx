import type { ReactElement } from "react";
import { numberInWords } from "../_words/figures";
import type { ChangeDrawn, DrawnDay } from "./changeDrawn";
import { across } from "./chart";
import styles from "./charts.module.css";
import { placeOn, type Scale } from "./scale";
import { ticksOn } from "./ticks";
import type { Place } from "./timePanel";

export const DAY_HEIGHT = 236;
const TITLE = 34;
const FOOT = 10;

/** Days as dots over the range that each could have had; levels before and after as thick lines. */
export function dayPanel(drawn: ChangeDrawn, place: Place, top: number): ReactElement {
  const days = drawn.references.flat();
  const scale = dayScale(days, drawn.levels);
  const [roof, ground] = [top + TITLE, top + DAY_HEIGHT - FOOT];
  const up = (value: number) =>
    scale === null ? ground : Number((ground - (placeOn(scale, value) / 100) * (ground - roof)).toFixed(1));
  return (
    <g>
      {days.map((one) => rangeOf(one, place, up))}
      {scale === null
        ? null
        : ticksOn(scale, 4).map((tick) => (
            <g key={tick}>
              <line className={styles.grid} x1="1%" x2="92%" y1={up(tick)} y2={up(tick)} />
              <text className={styles.halo} x="99%" y={up(tick) + 4} textAnchor="end">
                {numberInWords(tick, drawn.unit)}
              </text>
            </g>
          ))}
      {drawn.levels.map(({ from, to, value }) => (
        <line
          key={`${from} ${value}`}
          className={styles.level}
          x1={across(place(from))}
          x2={across(place(to, 1))}
          y1={up(value)}
          y2={up(value)}
        />
      ))}
      {days.map((one) => (
        <svg key={one.day} x={across(place(one.day, 0.5))} y={up(one.value)} overflow="visible" aria-hidden="true">
          {scale !== null && (one.value < scale.low || one.value > scale.high)
            ? beyond(one.value > scale.high)
            : dayDot(one)}
        </svg>
      ))}
      <text className={styles.title} x="1%" y={top + 12}>
        {drawn.valueTitle}
      </text>
      {scale === null ? (
        <text className={styles.words} x="1%" y={ground - 12}>
          no day has a value
        </text>
      ) : null}
    </g>
  );
}

/** What a day could have been: a box with both its ends, or only the end that there is. */
function rangeOf({ day, low, high }: DrawnDay, place: Place, up: (value: number) => number): ReactElement | null {
  const ends = [low, high].filter((end) => end !== null);
  if (ends.length === 0) return null;
  const [left, right] = [across(place(day)), across(place(day, 1))];
  return (
    <g key={day}>
      {low === null || high === null ? null : (
        <rect
          className={styles.range}
          x={left}
          width={across(place(day, 1) - place(day))}
          y={up(high)}
          height={Number((up(low) - up(high)).toFixed(1))}
        />
      )}
      {ends.map((end) => (
        <line key={end} className={styles.rangeEnd} x1={left} x2={right} y1={up(end)} y2={up(end)} />
      ))}
    </g>
  );
}

/**
 * Every usual value, and nine of ten ranges. Days asked about one by one would press all others together: they are drawn
 * at the edge, with an arrow; so is what a range of a day with little mass has beyond it.
 */
function dayScale(days: readonly DrawnDay[], levels: ChangeDrawn["levels"]): Scale | null {
  const usual = days.filter(({ state }) => state === "scored" || state === "learning");
  const values = [...(usual.length > 0 ? usual : days), ...levels].map(({ value }) => value);
  if (values.length === 0) return null;
  const lows = days.flatMap(({ low }) => low ?? []).sort((a, b) => a - b);
  const highs = days.flatMap(({ high }) => high ?? []).sort((a, b) => b - a);
  const tenth = (ends: readonly number[]) => ends.slice(Math.floor(ends.length / 10), Math.floor(ends.length / 10) + 1);
  const [low, high] = [Math.min(...values, ...tenth(lows)), Math.max(...values, ...tenth(highs))];
  const margin = high > low ? (high - low) * 0.05 : Math.abs(high) * 0.1 || 1;
  return { low: low > 0 ? Math.max(0, low - margin) : low - margin, high: high + margin };
}

function dayDot({ state }: DrawnDay): ReactElement {
  switch (state) {
    case "learning":
      return <circle className={styles.ring} r={2.5} />;
    case "scored":
      return <circle className={styles.dayDot} r={2.5} />;
    case "screened":
    case "far-outside":
      return <path className={styles.asked} d="M0-5.5L5.5 0L0 5.5L-5.5 0Z" />;
    case "left-out":
      return <path className={styles.quietMark} d="M-3.5-3.5L3.5 3.5M3.5-3.5L-3.5 3.5" />;
  }
}

/** A value off the scale, upward or downward. */
function beyond(upward: boolean): ReactElement {
  return <path className={styles.asked} d={upward ? "M-5 8L0 0L5 8Z" : "M-5-8L0 0L5-8Z"} />;
}
