import { known } from "#server/terms/figure";
import chart from "../_charts/charts.module.css";
import { dotMarks } from "../_charts/dotCell";
import styles from "./page.module.css";

const EXAMPLE = known({
  value: 5,
  unit: "count",
  interval: { low: 3.4, high: 6.6, level: 0.95 },
  restsOn: { used: 1, here: 1, owed: 1, of: "days" },
  asKnownOn: { ledgerSize: 0, time: null },
});
const SCALE = { low: 0, high: 10 };
const PLAIN = { figure: EXAMPLE, hollow: false, scale: SCALE, band: null, peers: [], floor: null, target: null };

const KEYS = [
  {
    dot: { ...PLAIN, band: { low: 2, high: 7 } },
    says: "a figure with its interval, over the middle half of the sites with the same dryer and fuel",
  },
  { dot: { ...PLAIN, hollow: true }, says: "hollow: it rests on little, and moves no other site's comparison" },
  {
    dot: { ...PLAIN, peers: [1.5, 8] },
    says: "short strokes: the others with the same dryer and fuel, fewer than four",
  },
  {
    dot: { ...PLAIN, floor: 1.2 },
    says: "ground: less heat than water needs at the least; left of it fuel is missing from the record",
  },
  { dot: { ...PLAIN, target: 8 }, says: "dashed with a point: the programme's mark" },
] as const;

/** The key to the marks, drawn by the same hand as the marks. */
export function HowToRead() {
  return (
    <ul className={styles.keys}>
      {KEYS.map(({ dot, says }) => (
        <li key={says}>
          <span>
            <svg className={chart.picture} height={30} aria-hidden="true">
              {dotMarks(dot)}
            </svg>
          </span>
          {says}
        </li>
      ))}
    </ul>
  );
}
