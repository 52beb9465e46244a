import type { Answers, Remembered } from "#server/terms/row";
import { answersInWords } from "../_words/answers";
import { counted } from "../_words/days";
import { Choice } from "./Choice";
import styles from "./SetAside.module.css";

interface Props {
  readonly answers: Answers | null;
  readonly remembered: Remembered | null;
  readonly form: string;
}

const MOST = 60;

/** What is answered so far, each to be taken back; and what an earlier log settled, to be left aside as a whole. */
export function AnswersGiven({ answers, remembered, form }: Props) {
  const given = answers === null ? [] : answersInWords(answers, remembered);
  if (given.length === 0) return null;
  return (
    <details className={styles.aside}>
      <summary>{counted(given.length, "answer is", "answers are")} in: which?</summary>
      <p>Tick what is not so, and look again.</p>
      {remembered === null ? null : (
        <Choice kind="checkbox" name="alone" value="yes" form={form}>
          Leave aside what earlier logs have settled
        </Choice>
      )}
      {given.slice(0, MOST).map(({ kind, place, says, remembered: isOld }) =>
        isOld ? (
          <p key={`${kind} ${place}`}>{says}</p>
        ) : (
          <Choice key={`${kind} ${place}`} kind="checkbox" name={`forget:${kind} ${place}`} value="yes" form={form}>
            {says}
          </Choice>
        ),
      )}
      {given.length > MOST ? (
        <Choice kind="checkbox" name="forgetAll" value="yes" form={form}>
          Take back all of them, also the {given.length - MOST} that are not listed
        </Choice>
      ) : null}
    </details>
  );
}
