import type { Figure } from "#server/terms/figure";
import { intervalInWords, missingInWords, restsOnInWords, valueInWords, whyNone } from "../_words/figures";
import styles from "./FigureText.module.css";

interface Props {
  readonly figure: Figure;
  /** what the missing ones could do is told where there is room */
  readonly whole?: boolean;
}

/** The only place where a figure becomes text: value, unit, interval, what it rests on; or the reason there is none. */
export function FigureText({ figure, whole = false }: Props) {
  const interval = intervalInWords(figure);
  const missing = whole ? missingInWords(figure) : null;
  return (
    <span className={styles.figure}>
      {figure.known ? (
        <span className={styles.value}>{valueInWords(figure.value, figure.unit)}</span>
      ) : (
        <span className={styles.none}>{whyNone(figure.why)}</span>
      )}
      {interval === null ? null : <span className={styles.more}>{interval}</span>}
      {figure.known ? (
        <span className={`${styles.more} ${styles.whole}`}>rests on {restsOnInWords(figure.restsOn)}</span>
      ) : null}
      {missing === null ? null : <span className={`${styles.more} ${styles.whole}`}>{missing}</span>}
    </span>
  );
}
