import { Behind } from "../../_parts/Behind";
import { CautionBeforeFire, CautionBeforePacking } from "../../_parts/Caution";
import { Frame } from "../../_parts/Frame";
import { dayInWords } from "../../_words/days";
import { METHOD_WORDS } from "../../_words/methods";
import { becameInWords, FOLLOWS } from "../../_words/signalInbox";
import { signalTitle, touchesFire, touchesPacking } from "../../_words/signalPage";
import { coincidesInWords } from "../../_words/signalStory";
import { mayMean, mayMeanTogether, QUESTION_WORDS } from "../../_words/signals";
import { orNothing, signedIn } from "../../asking";
import { NothingHere } from "../../NothingHere";
import { noteFor } from "../../note";
import { knownAsked } from "../../sites/monthsAsked";
import { ChangeFigure } from "../ChangeFigure";
import { drawnOf } from "../drawnOf";
import { AsKnown, knownSuffix } from "../KnownOn";
import { seriesHref } from "../seriesHref";
import { AnswerForm } from "./AnswerForm";
import { Answers } from "./Answers";
import { DaysBehind } from "./DaysBehind";
import { HowTold } from "./HowTold";
import styles from "./page.module.css";
import { Told } from "./Told";

interface Props {
  readonly params: Promise<{ readonly id: string }>;
  readonly searchParams: Promise<{ readonly note?: string; readonly known?: string }>;
}

/** One signal: what changed, since when, by how much; the chart that says so, its days, what to ask, what was done. */
export default async function SignalPage({ params, searchParams }: Props) {
  const id = decodeURIComponent((await params).id);
  const { api, me } = await signedIn(`/signals/${id}`);
  const words = await searchParams;
  const known = knownAsked(words);
  const suffix = knownSuffix(known);
  const note = await noteFor(words.note);
  const justAnswered = note.told.done !== undefined;
  const one = await orNothing(
    api.signals.one({ id, wait: justAnswered ? "not" : "briefly", ...(known === undefined ? {} : { asOf: known }) }),
  );
  if (one === null) return <NothingHere />;
  const { signal, name, answers, revisions, shown } = one;
  const mayAnswer = one.mayAnswer && known === undefined;
  const title = signalTitle(signal, name);
  const drawn = drawnOf(shown, signal);
  const suspects = signal.coincides;
  return (
    <Frame title={Object.keys(note.wrong).length > 0 ? `Another try: ${title}` : title} here="signals" me={me}>
      <h1 className={styles.title}>{title}</h1>
      <ul className={styles.ways}>
        {signal.site === null ? (
          <li>{METHOD_WORDS[signal.method]}</li>
        ) : (
          <li>
            <a href={`/sites/${signal.site}${suffix}`}>{name ?? signal.site}</a>, {METHOD_WORDS[signal.method]}
          </li>
        )}
        <li>told on {dayInWords(signal.raisedOn)}</li>
        <li>
          <a href={seriesHref(signal, suffix)}>All its days</a>
        </li>
        <li>
          <a href={`/signals${suffix}`}>All signals</a>
        </li>
      </ul>
      <AsKnown known={known} today={`/signals/${id}`} />
      {justAnswered ? <p>{FOLLOWS}</p> : <Behind behind={one.behind} />}
      {signal.state === "stands" && signal.answer === null ? null : (
        <p className={styles.state} role="status">
          {becameInWords(signal)}
        </p>
      )}
      {suspects.length === 0 ? null : (
        <section className={styles.first} aria-labelledby="coincides">
          <h2 id="coincides">First of all</h2>
          {suspects.map((one) => (
            <p key={`${one.day} ${one.what}`}>{coincidesInWords(one)}</p>
          ))}
          <p>The figures may have moved for that reason alone. Settle this before anybody looks at the fire.</p>
        </section>
      )}
      <div className={styles.pair}>
        <Told one={one} suffix={suffix} />
        <section aria-labelledby="ask">
          <h2 id="ask">Ask first</h2>
          {signal.site === null ? <p>{mayMeanTogether}</p> : null}
          <ol className={styles.questions}>
            {signal.questions.slice(0, 3).map((question) => (
              <li key={question}>{QUESTION_WORDS[question]}</li>
            ))}
          </ol>
          {signal.site === null ? null : <p className={styles.quiet}>{mayMean(signal)}</p>}
        </section>
      </div>
      <section aria-labelledby="chart">
        <h2 id="chart">The chart that says so</h2>
        {drawn === null ? (
          <p>None of its days is left to draw: the rows behind it were taken back. The log’s page tells why.</p>
        ) : (
          <ChangeFigure drawn={drawn} />
        )}
      </section>
      <DaysBehind shown={shown} signal={signal} />
      <section aria-labelledby="done">
        <h2 id="done">What was done</h2>
        <Answers answers={answers} />
        {mayAnswer ? (
          <AnswerForm one={one} note={note} />
        ) : answers.length === 0 ? (
          <p>
            {known === undefined ? "Nobody has answered yet." : "Nobody had answered by then."}{" "}
            {me.role === "lead"
              ? "Tell your programme officer what you know; they write it down here."
              : "A programme officer answers here."}
          </p>
        ) : null}
      </section>
      {revisions.length < 2 ? null : <HowTold revisions={revisions} />}
      {touchesFire(signal.questions) ? <CautionBeforeFire /> : null}
      {touchesPacking(signal.questions) ? <CautionBeforePacking /> : null}
    </Frame>
  );
}
