import { Field, Second } from "../_parts/Form";
import styles from "./page.module.css";

/** Which day's knowledge is shown: what stood then, before later logs and answers. */
export function KnownOn({ known }: { readonly known: string | undefined }) {
  return (
    <form className={styles.known} method="get" action="/signals">
      <Field id="known" label="As known on (empty: today)">
        {(given) => <input {...given} type="date" defaultValue={known} />}
      </Field>
      <p>
        <Second>Show this</Second>
      </p>
    </form>
  );
}
