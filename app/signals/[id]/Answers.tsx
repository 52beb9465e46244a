import type { SignalAnswer } from "#server/terms/signalTold";
import { momentInWords } from "../../_words/days";
import { ANSWER_WORDS, answerInWords, whoInWords } from "../../_words/signalAnswers";
import styles from "./page.module.css";

/** Every answer that was given, the one that counts first; none is ever overwritten. */
export function Answers({ answers }: { readonly answers: readonly SignalAnswer[] }) {
  if (answers.length === 0) return null;
  const newest = [...answers].sort((a, b) => b.ledgerIndex - a.ledgerIndex);
  return (
    <ol className={styles.answers} aria-label="Answers, the one that counts first">
      {newest.map((answer, i) => (
        <li key={answer.ledgerIndex}>
          <p>
            <strong>{answerInWords(answer)}.</strong>{" "}
            {i === 0 ? ANSWER_WORDS[answer.kind].does : "A later answer stands in front of this one."}
          </p>
          <blockquote>{answer.reason ?? "The reason was erased."}</blockquote>
          <p className={styles.quiet}>
            {whoInWords(answer) ?? "somebody of the programme"}
            {answer.at === null ? "" : `, ${momentInWords(answer.at)}`}, record {answer.ledgerIndex}
          </p>
        </li>
      ))}
    </ol>
  );
}
