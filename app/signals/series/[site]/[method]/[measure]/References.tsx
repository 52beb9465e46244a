import type { ReferenceTold, StreamTold } from "#server/terms/signalTold";
import { Scrolling } from "../../../../../_parts/Scrolling";
import { dayInWords } from "../../../../../_words/days";
import { valueInWords } from "../../../../../_words/figures";
import { percent, stateOfReference } from "../../../../../_words/signalSeries";
import { begunByInWords } from "../../../../../_words/signalStory";
import { unitOf } from "../../../../drawnOf";
import styles from "./page.module.css";

interface Props {
  readonly references: readonly ReferenceTold[];
  readonly stream: StreamTold;
}

/** Spans of days that are compared with each other alone, the running one first. */
export function References({ references, stream }: Props) {
  if (references.length === 0) return null;
  const unit = unitOf(stream);
  return (
    <section aria-labelledby="references">
      <h2 id="references">What its days are compared with</h2>
      <p className={styles.quiet}>
        A day is compared with the days before it of the same reference, and with nothing else. A declared change, or a
        signal answered as a real change, begins a new one.
      </p>
      <Scrolling label="References of the series">
        <table className={styles.table}>
          <thead>
            <tr>
              <th scope="col">Begins on</th>
              <th scope="col">Begun by</th>
              <th scope="col">State</th>
              <th scope="col">Ends before</th>
              <th scope="col">Days that taught it</th>
              <th scope="col">Level</th>
              <th scope="col">Spread of a usual day</th>
            </tr>
          </thead>
          <tbody>
            {[...references].reverse().map((one) => (
              <tr key={one.from ?? "first"}>
                <th scope="row">{one.from === null ? "its first day" : dayInWords(one.from)}</th>
                <td>{begunByInWords(one.begunBy)}</td>
                <td>{stateOfReference(one)}</td>
                <td>{one.to === null ? "–" : dayInWords(one.to)}</td>
                <td>{one.days}</td>
                <td>{one.level === null ? "–" : valueInWords(one.level, unit)}</td>
                <td>{one.spread === null ? "–" : percent(one.spread)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Scrolling>
    </section>
  );
}
