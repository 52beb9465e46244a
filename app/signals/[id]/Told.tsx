import type { SignalShown, SignalTold } from "#server/terms/signalTold";
import { stepMark } from "../../_charts/stepMark";
import { dayInWords } from "../../_words/days";
import { daysBehindInWords, NOT_DETERMINED, signalTitle } from "../../_words/signalPage";
import {
  aMonthInWords,
  levelsInWords,
  NO_COST,
  sinceWholeInWords,
  stepInWords,
  worseInWords,
} from "../../_words/signalStory";
import { seriesHref } from "../seriesHref";
import { isSameSeries, lastOfEach } from "../sortedOut";
import styles from "./page.module.css";

interface Props {
  readonly one: SignalShown;
  /** what an address carries on */
  readonly suffix: string;
}

/** The change in words: from what to what, since when, what it comes to a month, and which way is worse if any. */
export function Told({ one: { signal, others, partOf }, suffix }: Props) {
  const month = aMonthInWords(signal);
  const same = others.filter((other) => isSameSeries(other, signal));
  const again = same.filter(({ direction }) => direction === signal.direction);
  const otherWay = same.filter(({ direction }) => direction !== signal.direction);
  const moved = lastOfEach(others.filter((other) => !isSameSeries(other, signal)));
  return (
    <section aria-labelledby="changed">
      <h2 id="changed">What changed</h2>
      <dl className={styles.told}>
        <div>
          <dt>By how much</dt>
          <dd>
            {stepMark(signal.direction)} <strong>{stepInWords(signal)}</strong>, {levelsInWords(signal)}. In brackets
            the 95 % interval.
          </dd>
        </div>
        <div>
          <dt>Since when</dt>
          <dd>
            {signal.since === null ? NOT_DETERMINED : `${capital(sinceWholeInWords(signal))}.`}{" "}
            {daysBehindInWords(signal)}
          </dd>
        </div>
        <div>
          <dt>A month</dt>
          <dd>
            {month === null ? "It comes to nothing that can be weighed." : `${capital(month)}.`}
            {signal.measure === "completeness" ? ` ${NO_COST}` : null}
          </dd>
        </div>
        <div>
          <dt>Which way is worse</dt>
          <dd>{worseInWords(signal.measure, signal.direction)}</dd>
        </div>
        {moved.length === 0 ? null : (
          <div>
            <dt>Moved at the same time</dt>
            <dd>
              <ul className={styles.others}>
                {moved.map((other) => (
                  <li key={other.id}>
                    <a href={`/signals/${other.id}${suffix}`}>{stepInWords(other)}</a>
                  </li>
                ))}
              </ul>
            </dd>
          </div>
        )}
        <Days title="Told of the same" of={again} suffix={suffix} />
        <Days title="The other way, before or after" of={otherWay} suffix={suffix} />
        {partOf === null ? null : (
          <div>
            <dt>Others did the same</dt>
            <dd>
              <a href={`/signals/${partOf.id}${suffix}`}>{signalTitle(partOf, null)}</a>. What all do together is mostly
              nobody’s doing.
            </dd>
          </div>
        )}
      </dl>
      <p>
        <a href={seriesHref(signal, suffix)}>How it is watched, and how soon a change would be found</a>
      </p>
    </section>
  );
}

interface DaysProps {
  readonly title: string;
  readonly of: readonly SignalTold[];
  readonly suffix: string;
}

/** Signals by the days on which they were told. */
function Days({ title, of, suffix }: DaysProps) {
  if (of.length === 0) return null;
  return (
    <div>
      <dt>{title}</dt>
      <dd>
        {of.map((other, i) => (
          <span key={other.id}>
            {i === 0 ? "" : ", "}
            <a href={`/signals/${other.id}${suffix}`}>{dayInWords(other.raisedOn)}</a>
          </span>
        ))}
      </dd>
    </div>
  );
}

function capital(sentence: string): string {
  return sentence.charAt(0).toUpperCase() + sentence.slice(1);
}
