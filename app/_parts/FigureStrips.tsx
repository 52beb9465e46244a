import type { MonthFigures } from "#server/jobs/figures";
import type { Measure } from "#server/measures/siteFigures";
import { type Scale, sharedScale } from "../_charts/scale";
import { whyNone } from "../_words/figures";
import { MEASURE_WORDS } from "../_words/measures";
import styles from "./FigureStrips.module.css";
import { FigureText } from "./FigureText";
import { IntervalMark } from "./IntervalMark";
import { RecordShort } from "./RecordSteps";

const COLUMNS = [
  { measure: "fresh", marked: false },
  { measure: "dry-yield", marked: true },
  { measure: "fresh-per-pan-hour", marked: true },
  { measure: "fuel-per-driven-off", marked: true },
] as const satisfies readonly { measure: Measure; marked: boolean }[];

export interface Strip {
  readonly key: string;
  readonly title: string;
  readonly note?: string;
  readonly href: string;
  readonly figures: MonthFigures;
}

/** One strip for each month or site, the main figures side by side; each figure's dots share one scale. */
export function FigureStrips({ strips, of }: { readonly strips: readonly Strip[]; readonly of: string }) {
  const scales = new Map<Measure, Scale | null>(
    COLUMNS.map(({ measure }) => [measure, sharedScale(strips.map(({ figures }) => figures.figures[measure]))]),
  );
  return (
    <div className={styles.strips}>
      <div className={styles.heads} aria-hidden="true">
        <span>{of}</span>
        <span>Record</span>
        {COLUMNS.map(({ measure }) => (
          <span key={measure}>{MEASURE_WORDS[measure].name}</span>
        ))}
      </div>
      <ul>
        {strips.map(({ key, title, note, href, figures }) => (
          <li key={key}>
            <h2>
              <a href={href}>{title}</a>
              {note === undefined ? null : <span className={styles.note}>{note}</span>}
            </h2>
            {isEmpty(figures) ? (
              <p className={styles.empty}>{emptyInWords(figures)}</p>
            ) : (
              <Main figures={figures} scales={scales} />
            )}
          </li>
        ))}
      </ul>
    </div>
  );
}

function Main({
  figures,
  scales,
}: {
  readonly figures: MonthFigures;
  readonly scales: ReadonlyMap<Measure, Scale | null>;
}) {
  return (
    <dl>
      <div>
        <dt>Record</dt>
        <dd>
          <RecordShort record={figures.completeness} />
        </dd>
      </div>
      {COLUMNS.map(({ measure, marked }) => (
        <div key={measure}>
          <dt>{MEASURE_WORDS[measure].name}</dt>
          <dd>
            {marked ? <IntervalMark figure={figures.figures[measure]} scale={scales.get(measure) ?? null} /> : null}
            <FigureText figure={figures.figures[measure]} />
          </dd>
        </div>
      ))}
    </dl>
  );
}

/** Nothing at all is known of such a month, so one sentence says it better than five cells. */
function isEmpty({ figures, completeness }: MonthFigures): boolean {
  return completeness.here === 0 && COLUMNS.every(({ measure }) => !figures[measure].known);
}

function emptyInWords({ figures, completeness }: MonthFigures): string {
  const { count, of } = completeness.owed;
  const why = figures.fresh.known ? "" : whyNone(figures.fresh.why);
  const sentence = `${why.charAt(0).toUpperCase()}${why.slice(1)}.`;
  return count === null || count === 0 ? sentence : `${sentence} ${count} ${of} were owed: is there a log to send?`;
}
