import type { PublishedSince } from "#server/jobs/publishedSince";
import { publishedInWords, sincePublishedInWords } from "../_words/published";
import styles from "./SincePublished.module.css";

interface Props {
  readonly published: PublishedSince;
  /** the moment of knowledge in the address; null: today */
  readonly known: string | null;
  /** a month in which several dryers were used names them */
  readonly severalDryers: boolean;
}

/** What was published of a month beside what is known of it: that it stands, or each figure that differs with both values. */
export function SincePublished({ published, known, severalDryers }: Props) {
  const { site, month, knownSize, otherEdition, differs } = published;
  return (
    <section className={styles.published} id="published" aria-label="What was published">
      <p>{publishedInWords(published, differs.length, known)}</p>
      {otherEdition === null ? null : <p>It was worked out by edition {otherEdition}; by now there is a later one.</p>}
      {differs.length === 0 ? null : (
        <>
          <ul>
            {differs.map((one) => {
              const { name, dryer, says } = sincePublishedInWords(one, known);
              return (
                <li key={`${one.method} ${one.measure}`}>
                  <a href={`/how#${one.measure}`}>{name}</a>
                  {severalDryers && dryer !== null ? `, ${dryer}` : ""}: {says}
                </li>
              );
            })}
          </ul>
          <p>
            <a href={`/sites/${site}/${month}?known=record-${knownSize}`}>Show the month as known then</a>
          </p>
        </>
      )}
    </section>
  );
}
