import type { Deed } from "#server/terms/history";
import { momentInWords } from "../_words/days";
import { whyInWords } from "../_words/difference";
import { DEED_WORDS, whoInWords } from "../_words/history";
import styles from "./SentLogs.module.css";

/** Everything that was done with a log, in the order in which it was done. */
export function Deeds({ deeds }: { readonly deeds: readonly Deed[] }) {
  return (
    <section className={styles.sent} aria-labelledby="deeds">
      <h2 id="deeds">What became of it</h2>
      <ul>
        {deeds.map(({ deed, at, by, ledgerIndex, reason, why }) => (
          <li key={`${ledgerIndex} ${deed}`}>
            <span className={styles.programme}>{DEED_WORDS[deed]}</span>
            <span className={styles.when}>
              {momentInWords(at)}, by <bdi>{whoInWords(by)}</bdi>, record {ledgerIndex}
            </span>
            {reason === null ? null : (
              <span className={styles.when}>
                Because: <bdi>{reason}</bdi>
              </span>
            )}
            {why === null ? null : (
              <span className={styles.when}>
                It says something else than before because: <bdi>{whyInWords(why)}</bdi>
              </span>
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}
