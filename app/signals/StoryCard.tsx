import type { SignalTold, StoryTold } from "#server/terms/signalTold";
import { stepMark } from "../_charts/stepMark";
import { METHOD_WORDS } from "../_words/methods";
import {
  aMonthInWords,
  coincidesInWords,
  levelsInWords,
  orderedByInWords,
  sinceWholeInWords,
  stepInWords,
  toldInWords,
  worseInWords,
} from "../_words/signalStory";
import { QUESTION_WORDS } from "../_words/signals";
import styles from "./page.module.css";
import { lastOfEach } from "./sortedOut";

/** One story: where, what changed, since when, by how much, what it comes to a month, and what to ask first. */
export function StoryCard({ story, suffix }: { readonly story: StoryTold; readonly suffix: string }) {
  const open = story.signals.filter(({ state, answer }) => state === "stands" && answer === null);
  const series = lastOfEach(open);
  const [first] = [...series].sort((a, b) => (b.cost.driedKg ?? -1) - (a.cost.driedKg ?? -1));
  if (first === undefined) return null;
  const coincides = series.flatMap((signal) => signal.coincides);
  const question = first.questions[0];
  const measures = story.signals.map(({ measure }) => measure);
  return (
    <li className={styles.story}>
      <h2>
        <bdi>{story.name ?? story.site}</bdi>
      </h2>
      <div className={styles.what}>
        {series.map((signal) => (
          <Step key={signal.id} signal={signal} suffix={suffix} />
        ))}
      </div>
      <div className={styles.ask}>
        {coincides[0] === undefined ? null : <p className={styles.coincides}>{coincidesInWords(coincides[0])}</p>}
        {question === undefined ? null : (
          <p>
            <span className={styles.label}>Ask first</span>
            {QUESTION_WORDS[question]}
          </p>
        )}
        <p className={styles.small}>
          {orderedByInWords(story.driedKg, measures)} {capital(toldInWords(open.map(({ raisedOn }) => raisedOn)))}.
        </p>
      </div>
    </li>
  );
}

/** One measure of a story, which leads to its signal. */
function Step({ signal, suffix }: { readonly signal: SignalTold; readonly suffix: string }) {
  const month = aMonthInWords(signal);
  return (
    <div className={styles.step}>
      {stepMark(signal.direction)}
      <div>
        <p className={styles.headline}>
          <a href={`/signals/${signal.id}${suffix}`}>{stepInWords(signal)}</a>
        </p>
        <p>
          {capital(sinceWholeInWords(signal))}; {levelsInWords(signal)}, {METHOD_WORDS[signal.method]}.
        </p>
        {month === null ? null : <p>{capital(month)}.</p>}
        <p className={styles.small}>{worseInWords(signal.measure, signal.direction)}</p>
      </div>
    </div>
  );
}

function capital(sentence: string): string {
  return sentence.charAt(0).toUpperCase() + sentence.slice(1);
}
