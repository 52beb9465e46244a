import type { Between } from "#server/compare/between";
import type { SiteRow } from "#server/jobs/comparison";
import { Second } from "../../_parts/Form";
import form from "../../_parts/Form.module.css";
import { betweenInWords } from "../../_words/comparison";
import { type AskedApart, SET_APART } from "./asked";
import styles from "./page.module.css";

interface Props {
  readonly asked: AskedApart;
  readonly rows: readonly SiteRow[];
  /** what may be said about the two asked for */
  readonly said: Between | null;
}

/** Two sites set against each other: how much they differ, or why that is not said. */
export function TwoSites({ asked, rows, said }: Props) {
  const sites = [...new Map(rows.map(({ site, name }) => [site, name]))].sort(([, a], [, b]) =>
    a.localeCompare(b, "en"),
  );
  const name = (code: string | undefined) => sites.find(([site]) => site === code)?.[1] ?? "";
  const { month, known, measure, two } = asked;
  const kept = { month, measure, known: known ?? "" };
  if (sites.length < 2) return null;
  return (
    <section className={styles.two} aria-labelledby="two">
      <h2 id="two">Two sites against each other</h2>
      <form method="get" action="/compare/apart#two">
        {Object.entries(kept).map(([field, value]) =>
          value === "" ? null : <input key={field} type="hidden" name={field} value={value} />,
        )}
        {(["first", "second"] as const).map((field, at) => (
          <label key={field}>
            {at === 0 ? "One site" : "Another"}
            <select name={field} className={form.control} defaultValue={two?.[at] ?? sites[at]?.[0]}>
              {sites.map(([site, written]) => (
                <option key={site} value={site}>
                  {written}
                </option>
              ))}
            </select>
          </label>
        ))}
        <p>
          <Second>Compare the two</Second>
        </p>
      </form>
      {said === null || two === null ? null : (
        <ul>
          {SET_APART.map((measure) => (
            <li key={measure}>{betweenInWords(said[measure], measure, name(two[0]), name(two[1]))}</li>
          ))}
        </ul>
      )}
    </section>
  );
}
