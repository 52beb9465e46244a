import type { ReactElement } from "react";
import type { MonthWatched } from "#server/terms/acceptedTold";
import { counted, monthInWords, monthName } from "../_words/days";
import { across, type Chart } from "./chart";
import styles from "./charts.module.css";

type Month = Pick<MonthWatched, "month" | "expectedFalse" | "raised" | "confirmed" | "falseAlarms">;

const HEIGHT = 150;
const AXIS = 32;
const MARK = 10;
/** Fewer would draw a single signal as tall as the chart. */
const FEWEST_ROWS = 6;

/** A square for each signal of a month, over the number that chance alone would have brought, drawn as a rule. */
export function alarmTally(title: string, months: readonly Month[]): Chart {
  const most = Math.max(FEWEST_ROWS, ...months.map(({ raised, expectedFalse }) => Math.max(raised, expectedFalse)));
  const step = HEIGHT / most;
  const width = 98 / Math.max(1, months.length);
  const middle = (i: number) => across(1 + width * (i + 0.5));
  return {
    short: title,
    long: `${counted(
      sum(months, ({ raised }) => raised),
      "signal",
    )} told, ${sum(months, ({ expectedFalse }) => expectedFalse).toFixed(1)} by chance alone. Filled squares: a cause was found. Squares with a cross: none was, and they count as false alarms. Open squares: not answered. The rule in each month is what chance alone would have brought.`,
    table: {
      caption: title,
      head: ["Month", "By chance", "Told", "Cause found", "No cause found", "Not answered"],
      rows: months.map(({ month, expectedFalse, raised, confirmed, falseAlarms }) => [
        monthInWords(month),
        expectedFalse.toFixed(1),
        ...[raised, confirmed, falseAlarms, raised - confirmed - falseAlarms].map(String),
      ]),
    },
    picture: (
      <svg className={styles.picture} height={HEIGHT + AXIS} role="img" aria-label={title}>
        <line className={styles.axis} x1="1%" x2="99%" y1={HEIGHT} y2={HEIGHT} />
        {months.map((one, i) => (
          <g key={one.month}>
            {squaresOf(one).map(({ nth, look }) => (
              <svg key={nth} x={middle(i)} y={HEIGHT - step * (nth - 0.5)} overflow="visible" aria-hidden="true">
                {square(look, Math.min(MARK, step - 2) / 2)}
              </svg>
            ))}
            <line
              className={styles.level}
              x1={across(1 + width * (i + 0.15))}
              x2={across(1 + width * (i + 0.85))}
              y1={HEIGHT - step * one.expectedFalse}
              y2={HEIGHT - step * one.expectedFalse}
            />
            <text className={styles.words} x={middle(i)} y={HEIGHT + 15} textAnchor="middle">
              {monthName(one.month.slice(5)).slice(0, months.length > 9 ? 1 : 3)}
            </text>
            {i === 0 || one.month.endsWith("-01") ? (
              <text className={styles.words} x={middle(i)} y={HEIGHT + 29} textAnchor="middle">
                {one.month.slice(0, 4)}
              </text>
            ) : null}
          </g>
        ))}
      </svg>
    ),
  };
}

interface Square {
  /** from 1, the lowest */
  readonly nth: number;
  readonly look: "cause" | "none" | "waits";
}

/** Those with a cause stand lowest, then false alarms, then those that wait. */
function squaresOf({ raised, confirmed, falseAlarms }: Month): Square[] {
  return Array.from({ length: raised }, (_, at) => ({
    nth: at + 1,
    look: at < confirmed ? "cause" : at < confirmed + falseAlarms ? "none" : "waits",
  }));
}

function square(look: Square["look"], half: number): ReactElement {
  const box = { x: -half, y: -half, width: 2 * half, height: 2 * half };
  if (look !== "none") return <rect className={look === "cause" ? styles.filled : styles.outlined} {...box} />;
  return (
    <>
      <rect className={styles.outlined} {...box} />
      <path className={styles.reach} d={`M${-half}${-half}L${half} ${half}M${half} ${-half}L${-half} ${half}`} />
    </>
  );
}

function sum(months: readonly Month[], of: (month: Month) => number): number {
  return months.reduce((all, month) => all + of(month), 0);
}
