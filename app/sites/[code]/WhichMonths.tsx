import { monthsBetween, plusMonths } from "#server/terms/days";
import { Field, Second } from "../../_parts/Form";
import { monthInWords } from "../../_words/days";
import styles from "./page.module.css";

interface Props {
  readonly code: string;
  readonly from: string;
  readonly to: string;
  readonly known: string | undefined;
  readonly today: string;
}

const YEARS = 6;

/** Which months are shown, and as known on which day. */
export function WhichMonths({ code, from, to, known, today }: Props) {
  const latest = today.slice(0, 7) > to ? today.slice(0, 7) : to;
  const earliest = from < plusMonths(latest, -12 * YEARS) ? from : plusMonths(latest, -12 * YEARS);
  const months = monthsBetween(earliest, latest).reverse();
  const choices = months.map((month) => (
    <option key={month} value={month}>
      {monthInWords(month)}
    </option>
  ));
  return (
    <form className={styles.which} method="get" action={`/sites/${code}`}>
      <Field id="from" label="From">
        {(given) => (
          <select {...given} defaultValue={from}>
            {choices}
          </select>
        )}
      </Field>
      <Field id="to" label="To">
        {(given) => (
          <select {...given} defaultValue={to}>
            {choices}
          </select>
        )}
      </Field>
      <Field id="known" label="As known on (empty: today)">
        {(given) => <input {...given} type="date" defaultValue={known} max={today} />}
      </Field>
      <p>
        <Second>Show these</Second>
      </p>
    </form>
  );
}
