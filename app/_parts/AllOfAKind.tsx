import type { Usual } from "../_words/choices";
import { type Kind, kindInWords, settlingsOfKind } from "../_words/kinds";
import { Choice } from "./Choice";
import styles from "./Form.module.css";

/** One doubt of many rows, to be settled for all of them at once. What is said of a single row below still wins. */
export function AllOfAKind({ kind, usual }: { readonly kind: Kind; readonly usual: Usual }) {
  const name = `alike:${kind.key}`;
  return (
    <fieldset className={styles.choices}>
      <legend>{kindInWords(kind)}</legend>
      {settlingsOfKind(kind, usual).map(({ how, says }) => (
        <Choice key={how} name={name} value={how}>
          {says}
        </Choice>
      ))}
      <Choice name={name} value="" checked>
        One by one, below
      </Choice>
    </fieldset>
  );
}
