import type { StreamWatched } from "#server/terms/acceptedTold";
import { Scrolling } from "../../_parts/Scrolling";
import { foundShort, seriesInWords } from "../../_words/signalAccepted";
import { percent, stateOfReference } from "../../_words/signalSeries";
import { seriesHref } from "../seriesHref";
import styles from "./page.module.css";

/** Every series with the days that a change of some sizes would take to be found. */
export function HowSoon({ streams }: { readonly streams: readonly StreamWatched[] }) {
  const changes = [...new Set(streams.flatMap(({ found }) => found.map(({ change }) => change)))].sort((a, b) => a - b);
  const named = streams.map((stream) => ({ stream, name: seriesInWords(stream) }));
  return (
    <Scrolling label="How soon a change would be found, by series">
      <table className={styles.table}>
        <caption>
          Days with a value until every second such change is found; then days from now, if it began today and logs came
          when they are due.
        </caption>
        <thead>
          <tr>
            <th scope="col">Series</th>
            <th scope="col">Points a month</th>
            {changes.map((change) => (
              <th key={change} scope="col">
                A change of {percent(change)}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {named
            .sort((a, b) => a.name.localeCompare(b.name, "en"))
            .map(({ stream, name }) => (
              <tr key={name}>
                <th scope="row">
                  <a href={seriesHref(stream)}>{name}</a>
                </th>
                <td>{stream.points}</td>
                {stream.state === "learning" ? (
                  <td colSpan={Math.max(1, changes.length)}>{stateOfReference(stream)}</td>
                ) : (
                  changes.map((change) => {
                    const found = stream.found.find((one) => one.change === change);
                    return <td key={change}>{found === undefined ? "–" : foundShort(found)}</td>;
                  })
                )}
              </tr>
            ))}
        </tbody>
      </table>
    </Scrolling>
  );
}
