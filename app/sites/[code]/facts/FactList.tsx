import type { Fact, FactKind } from "#server/terms/facts";
import { Second } from "../../../_parts/Form";
import { dayInWords, spanInWords } from "../../../_words/days";
import { factInWords, factName } from "../../../_words/facts";
import styles from "./FactList.module.css";

/** What a site may say of itself may be taken back by the site. */
const OWN: readonly FactKind[] = ["closed", "nothing-produced"];

interface Props {
  readonly facts: readonly Fact[];
  readonly code: string;
  readonly mayTakeBack: boolean;
}

/** Every declaration with the days for which it holds; a later one for the same days stands in front of it. */
export function FactList({ facts, code, mayTakeBack }: Props) {
  if (facts.length === 0) return <p>Nothing is declared yet.</p>;
  return (
    <ul className={styles.facts}>
      {[...facts].reverse().map((fact) => (
        <li key={`${fact.ledgerIndex} ${fact.kind} ${fact.key} ${fact.from}`}>
          <span className={styles.name}>{factName(fact.kind)}</span>
          <span>
            <bdi>{factInWords(fact)}</bdi>
          </span>
          <span className={styles.when}>
            {spanInWords(fact.from, fact.to)}; declared {dayInWords(fact.declaredOn)}, record {fact.ledgerIndex}
          </span>
          {mayTakeBack && OWN.includes(fact.kind) && stands(fact, facts) ? (
            <form method="post" action={`/sites/${code}/facts/declare`}>
              <input type="hidden" name="kind" value={fact.kind} />
              <input type="hidden" name="key" value={fact.key} />
              <input type="hidden" name="from" value={fact.from} />
              <input type="hidden" name="to" value={fact.to ?? ""} />
              <Second name="back" value="yes">
                Take it back
              </Second>
            </form>
          ) : null}
        </li>
      ))}
    </ul>
  );
}

function stands(fact: Fact, facts: readonly Fact[]): boolean {
  const same = facts.filter(
    ({ kind, key, from, to }) => kind === fact.kind && key === fact.key && from === fact.from && to === fact.to,
  );
  return fact.value !== null && same.at(-1) === fact;
}
