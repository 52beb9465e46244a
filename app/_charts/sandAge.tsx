import { dayNumber } from "#server/terms/days";
import { counted, dayInWords, spanInWords } from "../_words/days";
import { across, type Chart } from "./chart";
import styles from "./charts.module.css";

/** One pan's loads since its sand was new, at the end of each day on which it was used. */
export interface PanSand {
  readonly pan: string;
  readonly days: readonly { readonly day: string; readonly loads: number }[];
}

const ROW = 56;
const AXIS = 18;

/**
 * How old the sand of each pan is, in loads since it was new: it climbs with each load and falls with new sand.
 *
 * `limit` is what the site declared as the most; null where it declared none. A pan of which no new sand was ever logged has
 * no age, and is to be left out.
 */
export function sandAge(
  title: string,
  from: string,
  to: string,
  pans: readonly PanSand[],
  limit: number | null,
): Chart {
  const most = Math.max(limit ?? 0, ...pans.flatMap(({ days }) => days.map(({ loads }) => loads)), 1);
  const [first, last] = [dayNumber(from), dayNumber(to) + 1];
  const x = (day: string) => across(10 + (89 * (dayNumber(day) - first)) / (last - first));
  const up = (top: number, loads: number) => top + ROW - 6 - (loads / most) * (ROW - 14);
  const now = pans.map(({ pan, days }) => ({ pan, last: days.at(-1), over: days.filter(({ loads }) => over(loads)) }));
  const short = `${title}, ${spanInWords(from, to)}`;
  return {
    short,
    long: `${now
      .map(({ pan, last: day }) => `Pan ${pan}: ${day === undefined ? "not used" : counted(day.loads, "load")}`)
      .join(
        "; ",
      )}.${limit === null ? "" : ` The dashed line is the most the site declared: ${counted(limit, "load")}.`}`,
    table: {
      caption: short,
      head: ["Pan", "Loads since new sand", "On", "Days above the declared most"],
      rows: now.map(({ pan, last: day, over: above }) => [
        pan,
        day === undefined ? "–" : String(day.loads),
        day === undefined ? "–" : dayInWords(day.day),
        limit === null ? "none declared" : String(above.length),
      ]),
    },
    picture: (
      <svg className={styles.picture} height={pans.length * ROW + AXIS} role="img" aria-label={short}>
        {pans.map(({ pan, days }, i) => {
          const top = i * ROW;
          return (
            <g key={pan}>
              <text className={styles.title} x="0" y={top + ROW / 2}>
                {pan}
              </text>
              <line className={styles.axis} x1="10%" x2="99%" y1={up(top, 0)} y2={up(top, 0)} />
              {limit === null ? null : (
                <line className={styles.target} x1="10%" x2="99%" y1={up(top, limit)} y2={up(top, limit)} />
              )}
              {days.map(({ day, loads }) => (
                <line key={day} className={styles.reach} x1={x(day)} x2={x(day)} y1={up(top, 0)} y2={up(top, loads)} />
              ))}
            </g>
          );
        })}
        <text className={styles.words} x="10%" y={pans.length * ROW + 12}>
          {dayInWords(from)}
        </text>
        <text className={styles.words} x="99%" y={pans.length * ROW + 12} textAnchor="end">
          {dayInWords(to)}
        </text>
      </svg>
    ),
  };

  function over(loads: number): boolean {
    return limit !== null && loads > limit;
  }
}
