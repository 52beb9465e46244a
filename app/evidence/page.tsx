import { Frame } from "../_parts/Frame";
import { counted, monthInWords } from "../_words/days";
import { knownInWords } from "../_words/published";
import { orNothing, signedIn } from "../asking";
import { NothingHere } from "../NothingHere";
import { Adds } from "./Adds";
import { scopeAsked, scopeHref } from "./asked";
import { PublishedMonths } from "./PublishedMonths";
import styles from "./page.module.css";
import { WhichEvidence } from "./WhichEvidence";

interface Props {
  readonly searchParams: Promise<Readonly<Record<string, string | undefined>>>;
}

/** Chooses what to take away, says what will be in it and that it adds up, and gives it. */
export default async function EvidencePage({ searchParams }: Props) {
  const { api, me } = await signedIn("/evidence");
  const sites = await api.sites.list();
  const today = sites[0]?.today ?? new Date().toISOString().slice(0, 10);
  const scope = scopeAsked(await searchParams, me.site, today);
  const { site, from, to, known } = scope;
  const span = { from, to, ...(known === undefined ? {} : { asOf: known }) };
  const found = await orNothing(
    Promise.all(
      site === null
        ? [api.evidence.allAccount(span), api.evidence.allPublished(span)]
        : [api.evidence.siteAccount({ site, ...span }), api.evidence.sitePublished({ site, ...span })],
    ),
  );
  if (found === null) return <NothingHere />;
  const [account, published] = found;
  const named = sites.find(({ code }) => code === site)?.name ?? "All sites";
  const months = from === to ? monthInWords(from) : `${monthInWords(from)} to ${monthInWords(to)}`;
  const title = `Evidence: ${named}, ${months}`;
  return (
    <Frame title={title} here="evidence" me={me}>
      <h1>{title}</h1>
      <WhichEvidence scope={scope} sites={sites} today={today} alone={me.site !== null} />
      <p role="status">
        {knownInWords(known)}, with {counted(account.known.ledgerSize, "record")}. Asked again as known then, every
        table is the same, byte for byte.
      </p>
      <section aria-labelledby="adds">
        <h2 id="adds">It adds up</h2>
        <Adds account={account} />
      </section>
      <section aria-labelledby="published">
        <h2 id="published">What was published</h2>
        <PublishedMonths published={published} sites={sites} known={known} />
      </section>
      <section aria-labelledby="take">
        <h2 id="take">Take it</h2>
        <p>
          <a className={styles.book} href={scopeHref("/evidence/tables", scope, { as: "xlsx" })}>
            All tables in one workbook (XLSX)
          </a>
        </p>
        <p>
          In the workbook, formulas beside the figures work out yield and weights again from the batches. The CSV tables
          are for programs: a text that a spreadsheet would run as a formula has an apostrophe in front.
        </p>
        <ul className={styles.tables}>
          {account.tables.map(({ name, says, lines }) => (
            <li key={name}>
              <h3>
                <a href={scopeHref("/evidence/tables", scope, { table: name, as: "csv" })}>{name}.csv</a>
                <span className={styles.lines}>{lines === null ? "a line for each cell" : counted(lines, "line")}</span>
              </h3>
              <p>{says}</p>
            </li>
          ))}
        </ul>
      </section>
    </Frame>
  );
}
