import type { ReactElement } from "react";
import { dayNumber } from "#server/terms/days";
import { spanInWords } from "../_words/days";
import { CHANGE_HEAD, changeChartInWords, changeRows, DRIFT_TITLE, SUMS_TITLE } from "../_words/signalChart";
import type { Begun, ChangeDrawn } from "./changeDrawn";
import { across, type Chart } from "./chart";
import styles from "./charts.module.css";
import { DAY_HEIGHT, dayPanel } from "./dayPanel";
import { DRIFT_HEIGHT, driftPanel } from "./driftPanel";
import { SUMS_HEIGHT, sumsPanel } from "./sumsPanel";
import type { Place } from "./timePanel";
import { timeAxis } from "./timePanels";

const HEAD = 18;
const AXIS = 34;
/** Days take this much of the width; right of them stand the words of the scales. */
const WIDTH = 91;

/**
 * A series and what is told of it on one time axis: each day over the range it could have had, recent days taken together
 * with the limits of a signal, and, where asked for, the sums.
 */
export function changeOverTime(drawn: ChangeDrawn): Chart {
  const { title, from, to, begun, events, sums } = drawn;
  const [first, last] = [dayNumber(from), dayNumber(to) + 1];
  const place: Place = (day, half = 0) => 1 + (WIDTH * (dayNumber(day) + half - first)) / (last - first);
  const within = events.filter(({ day }) => day >= from && day <= to).sort((a, b) => (a.day < b.day ? -1 : 1));
  const isCharted = drawn.references.flat().some(({ chart }) => chart !== null);
  const driftTop = HEAD + DAY_HEIGHT;
  const sumsTop = driftTop + (isCharted ? DRIFT_HEIGHT : 0);
  const bottom = sumsTop + (sums === undefined ? 0 : SUMS_HEIGHT);
  const short = `${title}, ${spanInWords(from, to)}`;
  return {
    short,
    long: changeChartInWords(drawn, within),
    table: { caption: short, head: CHANGE_HEAD, rows: changeRows(drawn) },
    picture: (
      <svg className={styles.picture} height={bottom + AXIS} role="img" aria-label={short}>
        {within.map(({ day, text }, i) => (
          <g key={`${day} ${text}`}>
            <line className={styles.event} x1={across(place(day))} x2={across(place(day))} y1={14} y2={bottom} />
            <text className={styles.eventNumber} x={across(place(day))} y={11} textAnchor="middle">
              {i + 1}
            </text>
          </g>
        ))}
        {dayPanel(drawn, place, HEAD)}
        {isCharted ? driftPanel(drawn, DRIFT_TITLE, place, driftTop) : null}
        {sums === undefined ? null : sumsPanel(sums, SUMS_TITLE, place, sumsTop)}
        {begun === null ? null : bracket(begun, from, place, bottom)}
        {drawn.toldOn === null || drawn.toldOn < from ? null : (
          <svg x={across(place(drawn.toldOn, 0.5))} y={bottom} overflow="visible" aria-hidden="true">
            <path className={styles.flag} d="M-5 0L0-9L5 0Z" />
          </svg>
        )}
        {timeAxis(from, to, place, bottom)}
      </svg>
    ),
  };
}

/** The days between which the new level began, as a bracket, and its likeliest first day as a rule through all panels. */
function bracket({ from, to, best }: Begun, first: string, place: Place, bottom: number): ReactElement {
  const y = HEAD + 24;
  const [left, right] = [across(place(from < first ? first : from)), across(place(to, 1))];
  return (
    <g>
      <line className={styles.reach} x1={left} x2={right} y1={y} y2={y} />
      {[left, right].map((x, i) => (
        <line key={i === 0 ? "from" : "to"} className={styles.cap} x1={x} x2={x} y1={y - 4} y2={y + 4} />
      ))}
      {best === null || best < first ? null : (
        <line className={styles.since} x1={across(place(best))} x2={across(place(best))} y1={y} y2={bottom} />
      )}
    </g>
  );
}
