import { Field, Second } from "../../../../../_parts/Form";
import { FromTo } from "../../../../../_parts/FromTo";
import styles from "./page.module.css";

interface Props {
  readonly from: string;
  readonly to: string;
  readonly known: string | undefined;
  readonly today: string;
}

/** Which months of the series are shown, and as known on which day. */
export function WhichMonths({ from, to, known, today }: Props) {
  return (
    <form className={styles.which} method="get">
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
