import type { ReactElement } from "react";
import { dayNumber, monthsBetween } from "#server/terms/days";
import type { Figure } from "#server/terms/figure";
import { counted, dayInWords, monthInWords, monthName, spanInWords } from "../_words/days";
import { figureInWords } from "../_words/figures";
import { across, type Chart } from "./chart";
import styles from "./charts.module.css";
import { columnScale } from "./columnScale";
import { type Panel, type Place, panelOf, type TimePoint } from "./timePanel";

/** Something that happened, drawn as a thin rule through all panels. */
export interface TimeEvent {
  readonly day: string;
  readonly text: string;
}

const AXIS = 34;
const HEAD = 18;
/** Days take this much of the width; right of them stand the words of the scales. */
const WIDTH = 91;

/**
 * Panels stacked on one time axis, so that causes line up with effects; events run as thin rules through all of them.
 *
 * A month without a figure keeps its place on the axis and is marked there; no line is drawn across it.
 */
export function timePanels(
  title: string,
  from: string,
  to: string,
  panels: readonly Panel[],
  events: readonly TimeEvent[],
): Chart {
  const [first, last] = [dayNumber(from), dayNumber(to) + 1];
  const place: Place = (day, half = 0) => 1 + (WIDTH * (dayNumber(day) + half - first)) / (last - first);
  const within = events.filter(({ day }) => day >= from && day <= to).sort((a, b) => (a.day < b.day ? -1 : 1));
  const tops = panels.map((_, i) => HEAD + panels.slice(0, i).reduce((sum, panel) => sum + (panel.height ?? 96), 0));
  const bottom = HEAD + panels.reduce((sum, panel) => sum + (panel.height ?? 96), 0);
  const short = `${title}, ${spanInWords(from, to)}`;
  const picture = (
    <svg className={styles.picture} height={bottom + AXIS} role="img" aria-label={short}>
      {within.map(({ day, text }, i) => (
        <g key={`${day} ${text}`}>
          <line className={styles.event} x1={across(place(day))} x2={across(place(day))} y1={12} y2={bottom} />
          <text className={styles.eventNumber} x={across(place(day))} y={10} textAnchor="middle">
            {i + 1}
          </text>
        </g>
      ))}
      {panels.map((panel, i) => panelOf(panel, scaleOf(panel), place, tops[i]!))}
      {timeAxis(from, to, place, bottom)}
    </svg>
  );
  return {
    picture,
    short,
    long: inWords(panels, within),
    table: {
      caption: short,
      head: ["When", ...panels.map((panel) => panel.title)],
      rows: [
        ...spansOf(panels).map(([start, end]) => [
          spanName(start, end),
          ...panels.map(({ points }) => {
            const point = points.find((one) => one.from === start && one.to === end);
            return point === undefined ? "–" : figureInWords(point.figure);
          }),
        ]),
        ...within.map(({ day, text }) => [dayInWords(day), text, ...panels.slice(1).map(() => "")]),
      ],
    },
  };
}

function scaleOf({ points, floor, target }: Panel) {
  return columnScale(
    points,
    [floor, target].filter((mark) => mark != null),
  );
}

/** Every span that has a point in some panel, in the order of time. */
function spansOf(panels: readonly Panel[]): [string, string][] {
  const spans = new Map(panels.flatMap(({ points }) => points.map(({ from, to }) => [`${from} ${to}`, [from, to]])));
  return [...spans.keys()].sort().map((key) => key.split(" ") as [string, string]);
}

function spanName(from: string, to: string): string {
  return from.endsWith("-01") && from.slice(0, 7) === to.slice(0, 7) && from !== to
    ? monthInWords(from.slice(0, 7))
    : spanInWords(from, to);
}

function inWords(panels: readonly Panel[], events: readonly TimeEvent[]): string {
  const said = panels.map(({ title, points }) => `${title}: ${rangeInWords(points)}.`);
  const rules = events.map(({ day, text }, i) => `${i + 1}: ${dayInWords(day)}, ${text}.`);
  return [...said, ...(rules.length > 0 ? ["Rules mark events.", ...rules] : [])].join(" ");
}

function rangeInWords(points: readonly TimePoint[]): string {
  const known = points.filter(({ figure }) => figure.known);
  const [first, last] = [known[0]?.figure, known.at(-1)?.figure];
  if (first === undefined || last === undefined) return "nothing is known";
  const missing = points.length - known.length;
  return `first ${shortFigure(first)}, last ${shortFigure(last)}${missing > 0 ? `; ${counted(missing, "gap")}` : ""}`;
}

function shortFigure(figure: Figure): string {
  return figureInWords(figure).split(", rests on")[0] ?? "";
}

/** Months and years under a stack of panels; under a single month its span in words. */
export function timeAxis(from: string, to: string, place: Place, y: number): ReactElement {
  const months = monthsBetween(from.slice(0, 7), to.slice(0, 7));
  const every = Math.ceil(months.length / 13);
  return (
    <g>
      <line className={styles.axis} x1="1%" x2="99%" y1={y} y2={y} />
      {months.map((month, i) => {
        const start = `${month}-01` < from ? from : `${month}-01`;
        return (
          <g key={month}>
            <line className={styles.axis} x1={across(place(start))} x2={across(place(start))} y1={y} y2={y + 4} />
            {i % every === 0 && months.length > 1 ? (
              <text className={styles.words} x={across(place(start))} y={y + 15}>
                {monthName(month.slice(5)).slice(0, months.length > 9 ? 1 : 3)}
              </text>
            ) : null}
            {months.length > 1 && (i === 0 || month.endsWith("-01")) ? (
              <text className={styles.words} x={across(place(start))} y={y + 29}>
                {month.slice(0, 4)}
              </text>
            ) : null}
          </g>
        );
      })}
      {months.length === 1 ? (
        <text className={styles.words} x="1%" y={y + 15}>
          {spanInWords(from, to)}
        </text>
      ) : null}
    </g>
  );
}
