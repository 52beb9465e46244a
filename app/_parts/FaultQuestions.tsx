import { type Fault, faultKey } from "#server/terms/fault";
import { effectInWords, faultInWords, whereInWords, yesInWords } from "../_words/faults";
import { Choice } from "./Choice";
import styles from "./Form.module.css";

/** Each fault that the log shows: what speaks for it, what a yes would change, and where. Nothing is changed unasked. */
export function FaultQuestions({ faults }: { readonly faults: readonly Fault[] }) {
  return faults.map((fault) => {
    const name = `fault:${faultKey(fault)}`;
    return (
      <fieldset key={name} className={styles.choices}>
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
  });
}
