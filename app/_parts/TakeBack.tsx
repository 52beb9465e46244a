import { Field, Second } from "./Form";
import styles from "./SetAside.module.css";

/** Takes a log back that should not have been sent; it stays on record, and nothing of it counts. */
export function TakeBack({ file }: { readonly file: string }) {
  return (
    <details className={styles.aside}>
      <summary>Was this the wrong log? Undo this send</summary>
      <form method="post" action={`/files/${file}/withdraw`}>
        <Field
          id="reason"
          label="Why is it taken back?"
          hint="It stays on record with this reason. What other logs say of the same loads, and what was corrected since, stays as well. The same log can be sent again."
        >
          {(given) => <input {...given} required maxLength={300} />}
        </Field>
        <p>
          <Second>Take it back</Second>
        </p>
      </form>
    </details>
  );
}
