import type { AcceptedShown } from "#server/terms/acceptedTold";
import { Choice } from "../../_parts/Choice";
import { Complaints, Field, Submit } from "../../_parts/Form";
import form from "../../_parts/Form.module.css";
import { READING_WORDS } from "../../_words/signalAccepted";
import type { Note } from "../../note";
import styles from "./page.module.css";

interface Props {
  readonly accepted: AcceptedShown;
  readonly note: Note;
}

const READINGS = ["on-average", "at-most-one-in-95-percent"] as const;

/** The number and how it is meant; it holds from today on. */
export function AcceptForm({ accepted, note: { typed, wrong } }: Props) {
  const reading = typed.reading ?? accepted.reading;
  return (
    <details className={styles.accept} open={Object.keys(wrong).length > 0}>
      <summary>Choose another number</summary>
      <form method="post" action="/signals/accepted/declare">
        <Complaints wrong={wrong} />
        <fieldset className={`${form.choices} ${styles.readings}`} id="reading">
          <legend>How is it meant?</legend>
          {READINGS.map((one) => (
            <Choice key={one} name="reading" value={one} checked={reading === one}>
              <strong>{READING_WORDS[one].name}</strong>
              <span>{READING_WORDS[one].means(accepted.said)}</span>
            </Choice>
          ))}
        </fieldset>
        <div className={styles.perMonth}>
          <Field
            id="perMonth"
            label="False alarms a month, over the whole programme"
            hint="From 0.1 to 50. With half as many, changes are found a few days later."
            wrong={wrong.perMonth}
          >
            {(given) => <input {...given} inputMode="decimal" defaultValue={typed.perMonth ?? String(accepted.said)} />}
          </Field>
        </div>
        <p>
          <Submit>Accept so many</Submit>
        </p>
        <p className={styles.quiet}>
          It holds for the months to come. What was told in months already watched stays as it was told.
        </p>
      </form>
    </details>
  );
}
