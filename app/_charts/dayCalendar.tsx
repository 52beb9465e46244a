import type { ReactElement } from "react";
import { daysBetween, daysOfMonth, monthsBetween } from "#server/terms/days";
import { counted, daysInWords, monthInWords, monthName } from "../_words/days";
import { across, type Chart } from "./chart";
import styles from "./charts.module.css";

/** What became of a day. Off: not open yet or any more, or no working day. */
export type DayState = "logged" | "closed" | "nothing-produced" | "missing" | "off";

const STATE_WORDS: Record<DayState, string> = {
  logged: "logged (filled square)",
  closed: "closed (stroke)",
  "nothing-produced": "nothing produced (ring)",
  missing: "missing (cross in a dashed square)",
  off: "not owed (dot)",
};
const SHOWN: readonly DayState[] = ["logged", "closed", "nothing-produced", "missing"];

const ROW = 22;
const HEAD = 16;

/** A row a month, a mark a day; each state has its own shape, so that it reads without colour and in print. */
export function dayCalendar(title: string, states: ReadonlyMap<string, DayState>): Chart {
  const days = [...states.keys()].sort();
  const months = days.length === 0 ? [] : monthsBetween(days[0]!.slice(0, 7), days.at(-1)!.slice(0, 7));
  const of = (month: string, state: DayState) =>
    days.filter((day) => day.startsWith(month) && states.get(day) === state);
  const total = (state: DayState) => days.filter((day) => states.get(day) === state).length;
  return {
    short: title,
    long: `${SHOWN.map((state) => `${counted(total(state), "day")} ${STATE_WORDS[state]}`).join(", ")}; ${STATE_WORDS.off}.`,
    table: {
      caption: title,
      head: ["Month", "Logged", "Closed", "Nothing produced", "Missing", "Which are missing"],
      rows: months.map((month) => [
        monthInWords(month),
        ...SHOWN.map((state) => String(of(month, state).length)),
        daysInWords(of(month, "missing"), 31) || "none",
      ]),
    },
    picture: (
      <svg className={styles.picture} height={HEAD + months.length * ROW} role="img" aria-label={title}>
        {[1, 5, 10, 15, 20, 25, 30].map((date) => (
          <text key={date} className={styles.words} x={across(place(date))} y={10} textAnchor="middle">
            {date}
          </text>
        ))}
        {months.map((month, i) => (
          <g key={month}>
            <text className={styles.words} x="0" y={HEAD + i * ROW + 15}>
              {monthName(month.slice(5)).slice(0, 3)}
            </text>
            {daysBetween(daysOfMonth(month).from, daysOfMonth(month).to).map((day) => (
              <svg
                key={day}
                x={across(place(Number(day.slice(8))))}
                y={HEAD + i * ROW + ROW / 2}
                overflow="visible"
                aria-hidden="true"
              >
                {states.has(day) ? dayMark(states.get(day) ?? "off") : null}
              </svg>
            ))}
          </g>
        ))}
      </svg>
    ),
  };
}

/** Days stand side by side after the month's name. */
function place(date: number): number {
  return 10 + ((date - 0.5) * 90) / 31;
}

function dayMark(state: DayState): ReactElement {
  switch (state) {
    case "logged":
      return <rect className={styles.filled} x={-4} y={-6} width={8} height={12} />;
    case "closed":
      return <line className={styles.axis} x1={-4} x2={4} y1={0} y2={0} />;
    case "nothing-produced":
      return <circle className={styles.quietMark} r={3.5} />;
    case "missing":
      return (
        <>
          <rect className={styles.open} x={-4} y={-6} width={8} height={12} />
          <path className={styles.cross} d="M-2.5-3L2.5 3M2.5-3L-2.5 3" />
        </>
      );
    case "off":
      return <circle className={styles.grid} r={0.8} />;
  }
}
