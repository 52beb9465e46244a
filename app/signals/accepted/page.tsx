import { alarmTally } from "../../_charts/alarmTally";
import { ChartFigure } from "../../_charts/ChartFigure";
import { Behind } from "../../_parts/Behind";
import { Frame } from "../../_parts/Frame";
import { monthInWords } from "../../_words/days";
import {
  acceptedInWords,
  defaultsInWords,
  keptInWords,
  unseenInWords,
  weeklyInWords,
} from "../../_words/signalAccepted";
import { orNothing, signedIn } from "../../asking";
import { NothingHere } from "../../NothingHere";
import { noteFor } from "../../note";
import { knownAsked } from "../../sites/monthsAsked";
import { AsKnown, KnownOn, knownSuffix } from "../KnownOn";
import { AcceptForm } from "./AcceptForm";
import { HowSoon } from "./HowSoon";
import { MonthsHeld } from "./MonthsHeld";
import styles from "./page.module.css";
import { Slow } from "./Slow";
import { ToldByMonth } from "./ToldByMonth";

interface Props {
  readonly searchParams: Promise<{ readonly note?: string; readonly known?: string }>;
}

const HERE = "/signals/accepted";
/** Of this size a change matters to nearly everybody: weekly sending is weighed by it. */
const TELLING = 0.1;

/** How many false alarms the programme accepts, what follows, whether it was kept, and what it cannot see. */
export default async function AcceptedPage({ searchParams }: Props) {
  const { api, me } = await signedIn("/signals/accepted");
  const asked = await searchParams;
  const known = knownAsked(asked);
  const suffix = knownSuffix(known);
  const accepted = await orNothing(api.signals.accepted(known === undefined ? { wait: "briefly" } : { asOf: known }));
  if (accepted === null) return <NothingHere />;
  const note = await noteFor(asked.note);
  const { months, streams } = accepted;
  const [kept, defaults, unseen, weekly] = [
    keptInWords(months),
    defaultsInWords(accepted),
    unseenInWords(streams),
    weeklyInWords(streams, TELLING),
  ];
  const first = months[0];
  const last = months.at(-1);
  return (
    <Frame
      title={Object.keys(note.wrong).length > 0 ? "Another try: false alarms we accept" : "False alarms we accept"}
      here="signals"
      me={me}
    >
      <h1>False alarms we accept</h1>
      <p className={styles.aloud}>{acceptedInWords(accepted)}</p>
      <p className={styles.text}>
        Whoever watches many sites hears of chance, too. The fewer false alarms, the later a true change is found; the
        number is the programme’s to choose. <a href={`/signals${suffix}`}>All signals</a>
      </p>
      <AsKnown known={known} today={HERE} />
      <Behind behind={accepted.behind} />
      {note.told.done === undefined ? null : <p role="status">{note.told.done}</p>}
      {known === undefined && (me.role === "officer" || me.role === "operator") ? (
        <AcceptForm accepted={accepted} note={note} />
      ) : null}
      {first === undefined || last === undefined ? (
        <p className={styles.text}>
          No month is watched yet. A site is watched once its logs hold twelve days with a value; send the logs, and
          this page fills itself.
        </p>
      ) : (
        <>
          <section aria-labelledby="kept">
            <h2 id="kept">Was it kept?</h2>
            <p className={styles.text}>{kept}</p>
            <ChartFigure
              chart={alarmTally(
                `Signals told from ${monthInWords(first.month)} to ${monthInWords(last.month)}`,
                months,
              )}
            />
            <ToldByMonth months={months} suffix={suffix} />
            <MonthsHeld months={months} />
          </section>
          <section aria-labelledby="soon">
            <h2 id="soon">How soon would a change be found?</h2>
            {[defaults, unseen, weekly].map((sentence) =>
              sentence === null ? null : (
                <p key={sentence} className={styles.text}>
                  {sentence}
                </p>
              ),
            )}
            <HowSoon streams={streams} change={TELLING} known={known} />
          </section>
        </>
      )}
      <Slow accepted={accepted} suffix={suffix} />
      <KnownOn known={known} action={HERE} />
    </Frame>
  );
}
