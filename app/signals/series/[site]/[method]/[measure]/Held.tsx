import type { HeldTold } from "#server/terms/signalTold";
import { monthInWords } from "../../../../../_words/days";
import { heldFromInWords, parametersOf } from "../../../../../_words/signalSeries";
import styles from "./page.module.css";

/** The parameters that the last month was held to, each with what it means and where all of them come from. */
export function Held({ held }: { readonly held: HeldTold }) {
  return (
    <section aria-labelledby="held">
      <h2 id="held">What {monthInWords(held.month)} is held to</h2>
      <p>{heldFromInWords(held)}</p>
      <dl className={styles.held}>
        {parametersOf(held).map(({ name, tells, value }) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>
              <strong>{value}</strong>
              <span className={styles.quiet}>{tells}</span>
            </dd>
          </div>
        ))}
      </dl>
      <p className={styles.quiet}>
        Edition {held.edition}. Days already watched keep the parameters of their own month;{" "}
        <a href="/how">how it is worked out</a>.
      </p>
    </section>
  );
}
