import { monthsBetween, plusMonths } from "#server/terms/days";
import { monthInWords } from "../_words/days";
import { Field } from "./Form";

interface Props {
  readonly from: string;
  readonly to: string;
  readonly today: string;
}

const YEARS = 6;

/** Two fields of a form: from which month to which. What is shown now can always be chosen, however long ago it was. */
export function FromTo({ from, to, today }: Props) {
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
    <>
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
    </>
  );
}
