import type { MonthFigures } from "#server/jobs/figures";
import { checkInWords } from "../_words/checks";
import { GROUPS, MEASURE_WORDS } from "../_words/measures";
import { METHOD_WORDS } from "../_words/methods";
import { FigureText } from "./FigureText";
import { FuelOfMonth } from "./FuelOfMonth";
import { MassBalanceOf } from "./MassBalanceOf";
import styles from "./MonthSheet.module.css";
import { RecordSteps } from "./RecordSteps";

/** Everything that is worked out for one month of a site: the record, every figure, where mass and fuel went, what to look at. */
export function MonthSheet({ months }: { readonly months: readonly MonthFigures[] }) {
  const [first] = months;
  if (first === undefined) return <p>Nothing is known of this month.</p>;
  return (
    <>
      <section className={styles.part} aria-labelledby="record">
        <h2 id="record">The record</h2>
        <RecordSteps record={first.completeness} />
      </section>
      {months.map((month) => (
        <OfMethod key={month.method ?? "all"} month={month} alone={months.length === 1} />
      ))}
    </>
  );
}

function OfMethod({ month, alone }: { readonly month: MonthFigures; readonly alone: boolean }) {
  const { method, figures, massBalance, fuel, checks } = month;
  return (
    <>
      {alone || method === null ? null : <h2 className={styles.method}>{METHOD_WORDS[method]}</h2>}
      {checks.length === 0 ? null : (
        <section className={`${styles.part} ${styles.look}`} aria-label="Worth a look">
          <h2>Worth a look</h2>
          <ul>
            {checks.map((check) => (
              <li key={`${check.code} ${check.days.join()}`}>{checkInWords(check)}</li>
            ))}
          </ul>
        </section>
      )}
      <div className={styles.groups}>
        {GROUPS.map(({ name, measures }) => (
          <section key={name} className={styles.part}>
            <h2>{name}</h2>
            <dl className={styles.figures}>
              {measures.map((measure) => (
                <div key={measure}>
                  <dt>
                    <a href={`/how#${measure}`}>{MEASURE_WORDS[measure].name}</a>
                  </dt>
                  <dd>
                    <FigureText figure={figures[measure]} whole />
                  </dd>
                </div>
              ))}
            </dl>
          </section>
        ))}
      </div>
      <MassBalanceOf balance={massBalance} />
      <FuelOfMonth fuel={fuel} intensity={figures["fuel-per-driven-off"]} />
    </>
  );
}
