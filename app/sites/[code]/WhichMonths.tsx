import { Field, Second } from "../../_parts/Form";
import { FromTo } from "../../_parts/FromTo";
import styles from "./page.module.css";

interface Props {
  readonly code: string;
  readonly from: string;
  readonly to: string;
  readonly known: string | undefined;
  readonly today: string;
}

/** Which months are shown, and as known on which day. */
export function WhichMonths({ code, from, to, known, today }: Props) {
  return (
    <form className={styles.which} method="get" action={`/sites/${code}`}>
      <FromTo from={from} to={to} today={today} />
      <Field id="known" label="As known on (empty: today)">
        {(given) => <input {...given} type="date" defaultValue={known} max={today} />}
      </Field>
      <p>
        <Second>Show these</Second>
      </p>
    </form>
  );
}
