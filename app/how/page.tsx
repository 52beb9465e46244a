import { EDITION } from "#server/terms/figure";
import { SOURCES, type SourceId } from "#server/terms/sources";
import { Frame } from "../_parts/Frame";
import { GROUPS, MEASURE_WORDS } from "../_words/measures";
import { SEEN_WORDS, sourceInWords } from "../_words/sources";
import { signedIn } from "../asking";
import { FactorTables } from "./FactorTables";
import styles from "./page.module.css";

/** Every formula, factor and source, made from the same files that the figures are worked out from. */
export default async function HowPage() {
  const { me } = await signedIn("/how");
  return (
    <Frame title="How it is worked out" here="how" me={me}>
      <h1>How it is worked out</h1>
      <div className={styles.text}>
        <p>
          Edition {EDITION}. A figure that was published stays with the edition that made it; a new edition reckons anew
          beside it.
        </p>
        <p>
          Every figure says what it rests on: how many batches, loads, days or fuel windows were used, of how many that
          are here and how many that were owed. Two ranges may stand with it, and they are not the same. The{" "}
          <em>interval</em> (95 %) says how much the process itself varies from day to day. The{" "}
          <em>missing-data range</em> says what the figure could have been, whatever the missing ones were, within what
          the site declared as possible.
        </p>
        <p>Missing is never zero. Where there is no figure, the reason stands in its place.</p>
      </div>
      <nav aria-label="On this page">
        <ul className={styles.ways}>
          {GROUPS.map(({ name }) => (
            <li key={name}>
              <a href={`#${anchor(name)}`}>{name}</a>
            </li>
          ))}
          <li>
            <a href="#factors">Factors</a>
          </li>
          <li>
            <a href="#sources">Sources</a>
          </li>
        </ul>
      </nav>
      {GROUPS.map(({ name, measures }) => (
        <section key={name} aria-labelledby={anchor(name)}>
          <h2 id={anchor(name)}>{name}</h2>
          <div className={styles.measures}>
            {measures.map((measure) => {
              const { name: called, tells, formula, counted, sources } = MEASURE_WORDS[measure];
              return (
                <article key={measure} id={measure} className={styles.measure}>
                  <h3>{called}</h3>
                  <p>{tells}</p>
                  <p className={styles.formula}>{formula}</p>
                  <p>{counted}</p>
                  {sources.length === 0 ? null : (
                    <p className={styles.from}>
                      Source:{" "}
                      {sources.map((id, at) => (
                        <span key={id}>
                          {at === 0 ? "" : "; "}
                          <a href={`#source-${id}`}>{SOURCES[id].title}</a>
                        </span>
                      ))}
                    </p>
                  )}
                </article>
              );
            })}
          </div>
        </section>
      ))}
      <h2 id="factors">Factors</h2>
      <FactorTables />
      <h2 id="sources">Sources</h2>
      <ul className={styles.sources}>
        {(Object.keys(SOURCES) as SourceId[]).map((id) => (
          <li key={id} id={`source-${id}`}>
            {sourceInWords(SOURCES[id])} <em>{SEEN_WORDS[SOURCES[id].how]}</em>
          </li>
        ))}
      </ul>
    </Frame>
  );
}

function anchor(name: string): string {
  return `group-${name.toLowerCase().replaceAll(" ", "-")}`;
}
