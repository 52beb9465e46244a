import type { Watched } from "#server/terms/signal";
import type { PointTold, SignalTold, StreamShown } from "#server/terms/signalTold";
import { Scrolling } from "../../_parts/Scrolling";
import { counted, dayInWords } from "../../_words/days";
import { numberInWords } from "../../_words/figures";
import { couldBeInWords, DAY_STATE_WORDS } from "../../_words/signalChart";
import { pointWords, valueHeading, WEIGHS_WORDS } from "../../_words/signalPage";
import { unitOf } from "../drawnOf";
import styles from "./page.module.css";

const SHOWN = 14;
const HEADS: Partial<Record<Watched, string>> = { "fuel-intensity": "Read on", completeness: "Month to" };

/** The days since the change up to the day it was told, each with its way to the batches and their rows. */
export function DaysBehind({ shown, signal }: { readonly shown: StreamShown; readonly signal: SignalTold }) {
  const first = signal.since ?? signal.sinceFrom;
  const days = shown.points.filter(({ day }) => day >= first && day <= signal.raisedOn).reverse();
  if (days.length === 0) return null;
  const { one, many } = pointWords(signal);
  return (
    <section aria-labelledby="behind">
      <h2 id="behind">The days behind it</h2>
      <p className={styles.quiet}>
        {counted(days.length, one, many)} from {dayInWords(first)} to {dayInWords(signal.raisedOn)}, the latest first.
        {signal.site === null ? " Of all sites together; each site’s page has its own." : ""}
      </p>
      <Days days={days.slice(0, SHOWN)} signal={signal} label="The latest days behind it" />
      {days.length <= SHOWN ? null : (
        <details className={styles.more}>
          <summary>{counted(days.length - SHOWN, "earlier one")}</summary>
          <Days days={days.slice(SHOWN)} signal={signal} label="The earlier days behind it" />
        </details>
      )}
    </section>
  );
}

function Days({
  days,
  signal,
  label,
}: {
  readonly days: readonly PointTold[];
  readonly signal: SignalTold;
  readonly label: string;
}) {
  const unit = unitOf(signal);
  const weighs = WEIGHS_WORDS[signal.measure];
  const { site } = signal;
  return (
    <Scrolling label={label}>
      <table className={styles.days}>
        <thead>
          <tr>
            <th scope="col">{HEADS[signal.measure] ?? (site === null ? "Week to" : "Day")}</th>
            <th scope="col">{valueHeading(signal)}</th>
            <th scope="col">Could have been</th>
            <th scope="col">{site === null ? "Sites" : `${weighs.name}, ${weighs.unit}`}</th>
            <th scope="col">What it was</th>
            {site === null ? null : <th scope="col">What it was read from</th>}
          </tr>
        </thead>
        <tbody>
          {days.map((point) => (
            <tr key={point.day}>
              <th scope="row">{dayInWords(point.day)}</th>
              <td>{numberInWords(point.value, unit)}</td>
              <td>{couldBeInWords(point.low, point.high, unit)}</td>
              <td>{numberInWords(point.mass, "count")}</td>
              <td>{DAY_STATE_WORDS[point.state]}</td>
              {site === null ? null : (
                <td>
                  <From point={point} site={site} />
                </td>
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </Scrolling>
  );
}

function From({ point: { day, files }, site }: { readonly point: PointTold; readonly site: string }) {
  return (
    <ul className={styles.from}>
      <li>
        <a href={`/sites/${site}/${day.slice(0, 7)}/batches?day=${day}`}>
          batches<span className={styles.hidden}> of {dayInWords(day)}</span>
        </a>
      </li>
      {files.map((file, i) => (
        <li key={file}>
          <a href={`/files/${file}`}>
            log{files.length > 1 ? ` ${i + 1}` : ""}
            <span className={styles.hidden}> of {dayInWords(day)}</span>
          </a>
        </li>
      ))}
    </ul>
  );
}
