import type { Fact } from "#server/terms/facts";
import { Second } from "../../../_parts/Form";
import { dayInWords, spanInWords } from "../../../_words/days";
import styles from "./FactList.module.css";

interface Props {
  readonly closings: readonly Fact<"closed">[];
  readonly code: string;
  /** the programme accepts what came late; a site cannot accept its own */
  readonly mayAccept: boolean;
}

/** Closed days that were declared after their log was due: still owed, until the programme accepts them. */
export function LateClosings({ closings, code, mayAccept }: Props) {
  if (closings.length === 0) return null;
  return (
    <>
      <h2>Closed days declared late</h2>
      <p>
        They were declared after the log of their month was due, so these days are still owed.{" "}
        {mayAccept ? "Accepted, they are owed no more." : "The programme can accept them."}
      </p>
      <ul className={styles.facts}>
        {closings.map(({ key, from, to, value, declaredOn, ledgerIndex }) => (
          <li key={`${ledgerIndex} ${key} ${from}`}>
            <span className={styles.name}>{spanInWords(from, to)}</span>
            <span>
              <bdi>{value?.reason}</bdi>
            </span>
            <span className={styles.when}>declared {dayInWords(declaredOn)}</span>
            {mayAccept ? (
              <form method="post" action={`/sites/${code}/facts/declare`}>
                <input type="hidden" name="kind" value="closed" />
                <input type="hidden" name="key" value={key} />
                <input type="hidden" name="from" value={from} />
                <input type="hidden" name="to" value={to ?? ""} />
                <input type="hidden" name="reason" value={value?.reason} />
                <Second name="accept" value="yes">
                  Accept late closing
                </Second>
              </form>
            ) : null}
          </li>
        ))}
      </ul>
    </>
  );
}
