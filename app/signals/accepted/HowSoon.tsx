import type { StreamWatched } from "#server/terms/acceptedTold";
import { Scrolling } from "../../_parts/Scrolling";
import { dayInWords } from "../../_words/days";
import { inDays, seriesInWords } from "../../_words/signalAccepted";
import { percent, stateOfReference } from "../../_words/signalSeries";
import { knownSuffix } from "../KnownOn";
import { seriesHref } from "../seriesHref";
import styles from "./page.module.css";

interface Props {
  readonly streams: readonly StreamWatched[];
  readonly change: number;
  readonly known: string | undefined;
}

/** Every series with the time that a lasting change of one size would take to be found. */
export function HowSoon({ streams, change, known }: Props) {
  const named = streams
    .map((stream) => ({ stream, name: seriesInWords(stream) }))
    .sort((a, b) => a.name.localeCompare(b.name, "en"));
  return (
    <>
      <p className={styles.caption}>
        Of lasting changes of {percent(change)} that begin {known === undefined ? "today" : `on ${dayInWords(known)}`},
        half would be found by the day given.
      </p>
      <Scrolling label="How soon a change would be found, by series">
        <table className={styles.table}>
          <thead>
            <tr>
              <th scope="col">Series</th>
              <th scope="col">Points a month</th>
              <th scope="col">Found after so many points</th>
              <th scope="col">Told with logs as they are due</th>
              <th scope="col">Told with logs every week</th>
            </tr>
          </thead>
          <tbody>
            {named.map(({ stream, name }) => (
              <tr key={name}>
                <th scope="row">
                  <a href={seriesHref(stream, knownSuffix(known))}>{name}</a>
                </th>
                <td>{stream.points}</td>
                <Found stream={stream} change={change} known={known} />
              </tr>
            ))}
          </tbody>
        </table>
      </Scrolling>
    </>
  );
}

function Found({ stream, change, known }: Omit<Props, "streams"> & { readonly stream: StreamWatched }) {
  const found = stream.found.find((one) => one.change === change);
  if (stream.state === "learning") return <td colSpan={3}>{stateOfReference(stream)}</td>;
  if (found === undefined) return <td colSpan={3}>no day in the last month, so nothing follows</td>;
  if (found.days === null) return <td colSpan={3}>not within a year: daily watching does not see it</td>;
  return (
    <>
      <td>about {found.days}</td>
      <td>{inDays(found.calendarDays, known)}</td>
      <td>{inDays(found.calendarDaysWeekly, known)}</td>
    </>
  );
}
