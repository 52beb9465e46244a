import type { ReactElement } from "react";
import { dayNumber } from "#server/terms/days";
import type { Figure, Unit } from "#server/terms/figure";
import { numberInWords } from "../_words/figures";
import { across } from "./chart";
import styles from "./charts.module.css";
import { placeOn, type Scale } from "./scale";
import { ticksOn } from "./ticks";

/** A figure of some days, both ends in: a month, a week, one day. */
export interface TimePoint {
  readonly from: string;
  readonly to: string;
  readonly figure: Figure;
  readonly hollow: boolean;
}

/** A level that held over some days, as a signal tells it. */
export interface Level {
  readonly from: string;
  readonly to: string;
  readonly value: number;
}

export interface Panel {
  readonly title: string;
  readonly points: readonly TimePoint[];
  readonly floor?: number | null;
  readonly target?: number | null;
  readonly levels?: readonly Level[];
  readonly height?: number;
}

/** Place of a day across the panels, in percent; `half` days later. */
export type Place = (day: string, half?: number) => number;

const TITLE = 18;
const FOOT = 8;

/** One panel of a stack, its upper edge at `top`. */
export function panelOf(panel: Panel, scale: Scale | null, place: Place, top: number): ReactElement {
  const { title, points, floor = null, target = null, levels = [], height = 96 } = panel;
  const [roof, ground] = [top + TITLE + 6, top + height - FOOT];
  const up = (value: number) => (scale === null ? ground : ground - (placeOn(scale, value) / 100) * (ground - roof));
  const unit = points.find(({ figure }) => figure.known)?.figure.unit;
  const across_ = (point: TimePoint) =>
    across(place(point.from, (dayNumber(point.to) - dayNumber(point.from) + 1) / 2));
  return (
    <g key={title}>
      {scale === null
        ? null
        : ticksOn(scale, 2).map((tick) => (
            <line key={tick} className={styles.grid} x1="1%" x2="99%" y1={up(tick)} y2={up(tick)} />
          ))}
      {mark(floor, styles.floor, up)}
      {mark(target, styles.target, up)}
      {levels.map(({ from, to, value }) => (
        <line
          key={from}
          className={styles.level}
          x1={across(place(from))}
          x2={across(place(to, 1))}
          y1={up(value)}
          y2={up(value)}
        />
      ))}
      {points.map((point, i) => joined(points[i - 1], point, across_, up))}
      {points.map((point) => pointOf(point, across_(point), up, ground))}
      {scale === null || unit === undefined ? null : ticksOn(scale, 2).map((tick) => tickWords(tick, unit, up))}
      <text className={styles.title} x="1%" y={top + 13}>
        {title}
      </text>
      {scale === null ? (
        <text className={styles.words} x="1%" y={ground - 12}>
          nothing is known
        </text>
      ) : null}
    </g>
  );
}

function mark(value: number | null, look: string | undefined, up: (value: number) => number): ReactElement | null {
  return value === null ? null : <line className={look} x1="1%" x2="99%" y1={up(value)} y2={up(value)} />;
}

function tickWords(tick: number, unit: Unit, up: (value: number) => number): ReactElement {
  return (
    <text key={tick} className={styles.halo} x="99%" y={up(tick) - 3} textAnchor="end">
      {numberInWords(tick, unit)}
    </text>
  );
}

/** A line from one point to the next, only where both are known and no day lies between them. */
function joined(
  before: TimePoint | undefined,
  point: TimePoint,
  x: (point: TimePoint) => string,
  up: (value: number) => number,
): ReactElement | null {
  if (before === undefined || !before.figure.known || !point.figure.known) return null;
  if (dayNumber(point.from) - dayNumber(before.to) !== 1) return null;
  return (
    <line
      key={`to ${point.from}`}
      className={styles.line}
      x1={x(before)}
      x2={x(point)}
      y1={up(before.figure.value)}
      y2={up(point.figure.value)}
    />
  );
}

function pointOf(
  { from, figure, hollow }: TimePoint,
  x: string,
  up: (value: number) => number,
  ground: number,
): ReactElement {
  if (!figure.known)
    return (
      <svg key={from} x={x} overflow="visible" aria-hidden="true">
        <line className={styles.none} x1={-5} x2={5} y1={ground} y2={ground} />
      </svg>
    );
  const { value, interval } = figure;
  return (
    <g key={from}>
      {interval === null ? null : (
        <line className={styles.reach} x1={x} x2={x} y1={up(interval.low)} y2={up(interval.high)} />
      )}
      <circle className={hollow ? styles.hollow : styles.dot} cx={x} cy={up(value)} r={4} />
    </g>
  );
}
