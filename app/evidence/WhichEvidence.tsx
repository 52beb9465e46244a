import { monthsBetween, plusMonths } from "#server/terms/days";
import { Field, Second } from "../_parts/Form";
import { monthInWords } from "../_words/days";
import type { Scope } from "./asked";
import styles from "./page.module.css";

interface Props {
  readonly scope: Scope;
  readonly sites: readonly { readonly code: string; readonly name: string }[];
  readonly today: string;
  /** a site lead has nothing to choose from */
  readonly alone: boolean;
}

const YEARS = 6;

/** Which site, which months, as known on which day. */
export function WhichEvidence({ scope: { site, from, to, known }, sites, today, alone }: Props) {
  const latest = today.slice(0, 7) > to ? today.slice(0, 7) : to;
  const earliest = from < plusMonths(latest, -12 * YEARS) ? from : plusMonths(latest, -12 * YEARS);
  const choices = monthsBetween(earliest, latest)
    .reverse()
    .map((month) => (
      <option key={month} value={month}>
        {monthInWords(month)}
      </option>
    ));
  return (
    <form className={styles.which} method="get" action="/evidence">
      {alone ? null : (
        <Field id="site" label="Site">
          {(given) => (
            <select {...given} defaultValue={site ?? "all"}>
              <option value="all">All sites</option>
              {sites.map(({ code, name }) => (
                <option key={code} value={code}>
                  {name} ({code})
                </option>
              ))}
            </select>
          )}
        </Field>
      )}
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
      <Field id="known" label="As known on">
        {(given) => <input {...given} type="date" defaultValue={known} max={today} />}
      </Field>
      <p>
        <Second>Show this</Second>
      </p>
    </form>
  );
}
