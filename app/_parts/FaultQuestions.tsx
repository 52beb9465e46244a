import { type Fault, faultKey, faultKindKey } from "#server/terms/fault";
import { counted } from "../_words/days";
import { effectInWords, faultInWords, whereInWords, yesInWords } from "../_words/faults";
import { Choice } from "./Choice";
import styles from "./Form.module.css";

/** From so many of a kind on they can be answered together. */
const SEVERAL = 3;
/** So many of a kind are asked at once: a page that a phone can hold. */
const MOST = 12;

/** Each fault that the log shows: what speaks for it, what a yes would change, and where. Nothing is changed unasked. */
export function FaultQuestions({ faults }: { readonly faults: readonly Fault[] }) {
  const kinds = new Set(faults.map(faultKindKey));
  return [...kinds].map((kind) => {
    const ofKind = faults.filter((fault) => faultKindKey(fault) === kind);
    const questions = ofKind.slice(0, MOST).map((fault) => <FaultQuestion key={faultKey(fault)} fault={fault} />);
    if (ofKind.length < SEVERAL) return questions;
    return (
      <div key={kind}>
        <AllOfKind kind={kind} faults={ofKind} />
        <details>
          <summary>One by one</summary>
          {questions}
          {ofKind.length > MOST ? (
            <p>{counted(ofKind.length - MOST, "more place")} will be asked about once these are answered.</p>
          ) : null}
        </details>
      </div>
    );
  });
}

/** One answer to all faults of a kind. What is said of a single one below still wins. */
function AllOfKind({ kind, faults }: { readonly kind: string; readonly faults: readonly Fault[] }) {
  const [first] = faults;
  if (first === undefined) return null;
  const name = `alike:${kind}`;
  return (
    <fieldset className={styles.choices}>
      <legend>{counted(faults.length, "place shows", "places show")} the same. One of them:</legend>
      <p className={styles.hint}>
        {whereInWords(first)} {faultInWords(first)}
      </p>
      <Choice name={name} value="yes">
        For all of them: {lowered(yesInWords(first))}
      </Choice>
      <Choice name={name} value="no">
        For all of them: no, they are right as they are written
      </Choice>
      <Choice name={name} value="" checked>
        One by one, below
      </Choice>
    </fieldset>
  );
}

function lowered(words: string): string {
  return words.charAt(0).toLowerCase() + words.slice(1);
}

function FaultQuestion({ fault }: { readonly fault: Fault }) {
  const name = `fault:${faultKey(fault)}`;
  return (
    <fieldset className={styles.choices}>
      <legend>{faultInWords(fault)}</legend>
      <p className={styles.hint}>{[effectInWords(fault), whereInWords(fault)].join(" ").trim()}</p>
      <Choice name={name} value="yes">
        {yesInWords(fault)}
      </Choice>
      <Choice name={name} value="no">
        No, it is right as it is written
      </Choice>
      <Choice name={name} value="" checked>
        I do not know yet
      </Choice>
    </fieldset>
  );
}
