import { LANGUAGES } from "#server/terms/headings/index";
import { Field, Second } from "../_parts/Form";
import { Frame } from "../_parts/Frame";
import { signedIn } from "../asking";
import styles from "./page.module.css";
import { SHEET_WORDS } from "./words";

interface Props {
  readonly searchParams: Promise<{ readonly site?: string }>;
}

/** The blank sheets that there are, in the languages whose logs can be read. */
export default async function SheetsPage({ searchParams }: Props) {
  const { site } = await searchParams;
  const { api, me } = await signedIn("/sheets");
  const sites = me.site === null ? await api.sites.list() : [];
  const query = site === undefined || site === "" ? "" : `?${new URLSearchParams({ site })}`;
  return (
    <Frame title="Blank sheets to print" here="send" me={me} width="column">
      <h1>Blank sheets to print</h1>
      <p>
        The daily sheet takes one line a load, the load sheet one column a load with more room. Typed off or
        photographed, either can be sent: its headings are words that are read back.
      </p>
      {sites.length === 0 ? null : (
        <form method="get" action="/sheets">
          <Field id="site" label="Site whose name is printed (may be left open)">
            {(given) => (
              <select {...given} defaultValue={site ?? ""}>
                <option value="">None</option>
                {sites.map(({ code, name }) => (
                  <option key={code} value={code}>
                    {name} ({code})
                  </option>
                ))}
              </select>
            )}
          </Field>
          <p>
            <Second>Put it on the sheets</Second>
          </p>
        </form>
      )}
      <ul className={styles.sheets}>
        {LANGUAGES.map(({ language }) => (
          <li key={language} lang={language}>
            <span>{SHEET_WORDS[language].name}</span>
            {(["daily", "load"] as const).map((kind) => (
              <a key={kind} href={`/sheets/${language}/${kind}${query}`}>
                {SHEET_WORDS[language].titles[kind]}
              </a>
            ))}
          </li>
        ))}
      </ul>
    </Frame>
  );
}
