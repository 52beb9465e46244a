import { Field, Second } from "../_parts/Form";
import { dayInWords } from "../_words/days";
import styles from "./page.module.css";

interface Props {
  readonly known: string | undefined;
  /** the page that asks */
  readonly action: string;
}

/** Which day's knowledge is shown: what stood then, before later logs and answers. */
export function KnownOn({ known, action }: Props) {
  return (
    <form className={styles.known} method="get" action={action}>
      <Field id="known" label="As known on (empty: today)">
        {(given) => <input {...given} type="date" defaultValue={known} />}
      </Field>
      <p>
        <Second>Show this</Second>
      </p>
    </form>
  );
}

/** Says that an earlier day's knowledge is shown, with the way back to today's; nothing while today's is. */
export function AsKnown({ known, today }: { readonly known: string | undefined; readonly today: string }) {
  if (known === undefined) return null;
  return (
    <p role="status">
      As known on {dayInWords(known)}. <a href={today}>Show what is known today</a>
    </p>
  );
}

/** What an address carries on, so that whoever looks at an earlier day's knowledge stays with it. */
export function knownSuffix(known: string | undefined): string {
  return known === undefined ? "" : `?known=${known}`;
}
