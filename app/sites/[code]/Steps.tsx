import type { SignalTold } from "#server/api/signals";
import { stepMark } from "../../_charts/stepMark";
import { counted } from "../../_words/days";
import { mayMean, QUESTION_WORDS, signalInWords } from "../../_words/signals";
import styles from "./page.module.css";

const STATE_WORDS: Record<SignalTold["state"], string> = {
  stands: "It stands.",
  back: "The level has gone back since.",
  turned: "A later step went the other way.",
  ended: "An answer, a declared change, or time ended it.",
  unsupported: "Logs that came since no longer tell of it.",
};
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
        <li key={`${signal.method} ${signal.measure} ${signal.raisedOn}`}>
          {stepMark(signal.direction)}
          <div>
            <p>
              <strong>{signalInWords(signal)}</strong> {STATE_WORDS[signal.state]}
              {signal.together ? " Other sites with this dryer did the same." : ""}
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
