import { Frame } from "../../../_parts/Frame";
import { Scrolling } from "../../../_parts/Scrolling";
import { signedIn } from "../../../asking";
import { NothingHere } from "../../../NothingHere";
import { CAUTIONS_IN } from "../../cautionsIn";
import { SHEET_WORDS, sheetHeadings, sheetLanguage } from "../../words";
import styles from "./page.module.css";

interface Props {
  readonly params: Promise<{ readonly language: string; readonly kind: string }>;
  readonly searchParams: Promise<{ readonly site?: string }>;
}

/** Lines of a daily sheet, and loads of a load sheet, that fill a page of A4 laid across. */
const LINES = 15;
const LOADS = 6;

/** A blank sheet on one page, to print and to fill by hand. */
export default async function SheetPage({ params, searchParams }: Props) {
  const { language: said, kind } = await params;
  const asked = await searchParams;
  const { api, me } = await signedIn(`/sheets/${said}/${kind}`);
  const language = sheetLanguage(said);
  if (language === null || (kind !== "daily" && kind !== "load")) return <NothingHere />;
  const words = SHEET_WORDS[language];
  const site = (await api.sites.list()).find(({ code }) => code === (me.site ?? asked.site));
  const headings = sheetHeadings(language, kind);
  return (
    <Frame title={words.titles[kind]} here="send" me={me}>
      <div lang={language} className={styles.sheet}>
        <h1>{words.titles[kind]}</h1>
        <p className={styles.head}>
          <span>
            {words.site}: <b>{site === undefined ? "" : `${site.name} (${site.code})`}</b>
          </span>
          <span>{words.month}:</span>
        </p>
        <p className={styles.how}>{words.howTo[kind]}</p>
        <Scrolling label={words.titles[kind]}>
          <table className={styles[kind]}>
            {kind === "daily" ? (
              <>
                <thead>
                  <tr>
                    {headings.map(({ meaning, heading }) => (
                      <th key={meaning} scope="col" className={meaning === "remarks" ? styles.wide : undefined}>
                        {heading}
                      </th>
                    ))}
                  </tr>
                </thead>
                <tbody>
                  {blanks(LINES).map((line) => (
                    <tr key={line}>
                      {headings.map(({ meaning }) => (
                        <td key={meaning} />
                      ))}
                    </tr>
                  ))}
                </tbody>
              </>
            ) : (
              <tbody>
                {headings.map(({ meaning, heading }) => (
                  <tr key={meaning}>
                    <th scope="row">{heading}</th>
                    {blanks(LOADS).map((load) => (
                      <td key={load} />
                    ))}
                  </tr>
                ))}
              </tbody>
            )}
          </table>
        </Scrolling>
        <ul className={styles.cautions}>
          {CAUTIONS_IN[language].map((caution) => (
            <li key={caution}>{caution}</li>
          ))}
        </ul>
      </div>
      <p className={styles.ways}>
        Print this page on A4, laid across. <a href="/sheets">Other sheets</a>
      </p>
    </Frame>
  );
}

function blanks(count: number): number[] {
  return Array.from({ length: count }, (_, at) => at);
}
