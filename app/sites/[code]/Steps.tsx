import type { SignalTold } from "#server/api/signals";
import { stepMark } from "../../_charts/stepMark";
import { counted } from "../../_words/days";
import { STANDING_WORDS } from "../../_words/signalInbox";
import { mayMean, QUESTION_WORDS, signalInWords } from "../../_words/signals";
import styles from "./page.module.css";

const FIRST = 3;

/** Steps in the site's series, newest first: since when, how much, and of those that stand what to ask first. */
export function Steps({ signals }: { readonly signals: readonly SignalTold[] }) {
  if (signals.length === 0) return <p>No lasting step was found in these months.</p>;
  const newest = [...signals].sort((a, b) => (a.raisedOn < b.raisedOn ? 1 : -1));
  const standing = newest.filter(
    (signal, i) => signal.state === "stands" && newest.findIndex((other) => isSameSeries(signal, other)) === i,
  );
  const earlier = newest.filter((signal) => !standing.includes(signal));
  return (
    <>
      {standing.length === 0 ? <p>No step stands at the end of these months.</p> : <List signals={standing} />}
      {earlier.length === 0 ? null : (
        <details className={styles.earlier}>
          <summary>{counted(earlier.length, "earlier step")}</summary>
          <List signals={earlier} />
        </details>
      )}
    </>
  );
}

function isSameSeries(a: SignalTold, b: SignalTold): boolean {
  return a.method === b.method && a.measure === b.measure;
}

function List({ signals }: { readonly signals: readonly SignalTold[] }) {
  return (
    <ul className={styles.steps}>
      {signals.map((signal) => (
        <li key={signal.id}>
          {stepMark(signal.direction)}
          <div>
            <p>
              <a href={`/signals/${signal.id}`}>
                <strong>{signalInWords(signal)}</strong>
              </a>{" "}
              {STANDING_WORDS[signal.state]}
              {signal.together ? " Other sites moved the same way then." : ""}
            </p>
            {signal.state === "stands" ? <Questions signal={signal} /> : null}
          </div>
        </li>
      ))}
    </ul>
  );
}

function Questions({ signal }: { readonly signal: SignalTold }) {
  return (
    <>
      <p>{mayMean(signal)}</p>
      <ul>
        {signal.questions.slice(0, FIRST).map((question) => (
          <li key={question}>{QUESTION_WORDS[question]}</li>
        ))}
      </ul>
    </>
  );
}
