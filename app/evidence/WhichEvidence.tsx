import { Field, Second } from "../_parts/Form";
import { FromTo } from "../_parts/FromTo";
import type { Scope } from "./asked";
import styles from "./page.module.css";

interface Props {
  readonly scope: Scope;
  readonly sites: readonly { readonly code: string; readonly name: string }[];
  readonly today: string;
  /** a site lead has nothing to choose from */
  readonly alone: boolean;
}

/** Which site, which months, as known on which day. */
export function WhichEvidence({ scope: { site, from, to, known }, sites, today, alone }: Props) {
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
      <FromTo from={from} to={to} today={today} />
      <Field id="known" label="As known on">
        {(given) => <input {...given} type="date" defaultValue={known} max={today} />}
      </Field>
      <p>
        <Second>Show this</Second>
      </p>
    </form>
  );
}
