import { monthsBetween, plusMonths } from "#server/terms/days";
import { Field, Second } from "../../../../../_parts/Form";
import { monthInWords } from "../../../../../_words/days";
import styles from "./page.module.css";

interface Props {
  readonly from: string;
  readonly to: string;
  readonly today: string;
}

const YEARS = 5;

/** Which months of the series are shown. */
export function WhichMonths({ from, to, today }: Props) {
  const latest = today.slice(0, 7) > to ? today.slice(0, 7) : to;
  const earliest = plusMonths(latest, -12 * YEARS);
  const choices = monthsBetween(from < earliest ? from : earliest, latest)
    .reverse()
    .map((month) => (
      <option key={month} value={month}>
        {monthInWords(month)}
      </option>
    ));
  return (
    <form className={styles.which} method="get">
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
      <p>
        <Second>Show these</Second>
      </p>
    </form>
  );
}
