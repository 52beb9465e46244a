import { stepMark } from "../_charts/stepMark";
import { counted } from "../_words/days";
import { METHOD_WORDS } from "../_words/methods";
import { levelsInWords, sinceWholeInWords, stepInWords } from "../_words/signalStory";
import { mayMeanTogether } from "../_words/signals";
import styles from "./page.module.css";
import { lastOfEach, type TogetherGroup } from "./sortedOut";

/** What all sites of a way of drying did together, told once, with the sites whose own stories it holds. */
export function ToldOnce({ group, suffix }: { readonly group: TogetherGroup; readonly suffix: string }) {
  const series = lastOfEach(group.signals);
  const [first] = series;
  if (first === undefined) return null;
  return (
    <section className={styles.together} aria-labelledby={`together-${first.method}-${first.measure}`}>
      <h2 id={`together-${first.method}-${first.measure}`}>
        <a href={`/signals/${first.id}${suffix}`}>Together: {METHOD_WORDS[first.method]}</a>
      </h2>
      {series.map((signal) => (
        <div key={signal.id} className={styles.step}>
          {stepMark(signal.direction)}
          <p>
            <strong>{stepInWords(signal)}</strong>, {sinceWholeInWords(signal)}; {levelsInWords(signal)}.
          </p>
        </div>
      ))}
      <p>{mayMeanTogether}</p>
      {group.parts.length === 0 ? null : (
        <details>
          <summary>{counted(group.parts.length, "site")} with nothing to tell beyond this</summary>
          <ul className={styles.ways}>
            {group.parts.map(({ site, name, signals }) => (
              <li key={signals[0]?.id}>
                <a href={`/signals/${signals[0]?.id}${suffix}`}>{name ?? site}</a>
              </li>
            ))}
          </ul>
        </details>
      )}
    </section>
  );
}
