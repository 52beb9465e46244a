import type { MonthFigures } from "#server/jobs/figures";
import type { Measure } from "#server/measures/siteFigures";
import { FigureText } from "../../_parts/FigureText";
import { MEASURE_WORDS } from "../../_words/measures";
import { METHOD_WORDS } from "../../_words/methods";
import styles from "./page.module.css";

const SHOWN = [
  "fresh",
  "dried",
  "dry-yield",
  "fresh-per-pan-hour",
  "fuel-per-driven-off",
  "loads-per-firing-day",
  "record-in-time",
  "record-usable",
] as const satisfies readonly Measure[];

/** The main figures of one month beside each other, for the sheet that is printed. */
export function MonthFiguresShort({ months }: { readonly months: readonly MonthFigures[] }) {
  return months.map(({ method, figures }) => (
    <div key={method ?? "none"}>
      {months.length === 1 || method === null ? null : <h3>{METHOD_WORDS[method]}</h3>}
      <dl className={styles.figures}>
        {SHOWN.map((measure) => (
          <div key={measure}>
            <dt>{MEASURE_WORDS[measure].name}</dt>
            <dd>
              <FigureText figure={figures[measure]} />
            </dd>
          </div>
        ))}
      </dl>
    </div>
  ));
}
