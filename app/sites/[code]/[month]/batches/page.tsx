import { Frame } from "../../../../_parts/Frame";
import { counted, dayInWords, monthInWords } from "../../../../_words/days";
import { knownInWords } from "../../../../_words/published";
import { orNothing, signedIn } from "../../../../asking";
import { scopeHref } from "../../../../evidence/asked";
import { NothingHere } from "../../../../NothingHere";
import { knownThenAsked, monthAsked } from "../../../monthsAsked";
import styles from "../../page.module.css";
import { BatchesTable } from "./BatchesTable";

interface Props {
  readonly params: Promise<{ readonly code: string; readonly month: string }>;
  readonly searchParams: Promise<Readonly<Record<string, string | undefined>>>;
}

const ON_A_PAGE = 200;

/** The batches that a month's figures rest on, each with the cells in which its weights were written. */
export default async function BatchesPage({ params, searchParams }: Props) {
  const { code, month } = await params;
  const asked = await searchParams;
  const { api, me } = await signedIn(`/sites/${code}/${month}/batches`);
  if (monthAsked({ month }) === null) return <NothingHere />;
  const known = knownThenAsked(asked);
  const all = await orNothing(
    api.evidence.batches({ site: code, month, ...(known === undefined ? {} : { asOf: known }) }),
  );
  if (all === null) return <NothingHere />;
  const day = all.some(({ batch }) => batch.day === asked.day) ? asked.day : undefined;
  const batches = day === undefined ? all : all.filter(({ batch }) => batch.day === day);
  const site = (await api.sites.list()).find((one) => one.code === code);
  const title = `Batches of ${site?.name ?? code}, ${day === undefined ? monthInWords(month) : dayInWords(day)}`;
  const pages = Math.max(1, Math.ceil(batches.length / ON_A_PAGE));
  const at = Math.min(pages, Math.max(1, Number.parseInt(asked.page ?? "1", 10) || 1));
  const paired = batches.filter(({ batch }) => batch.fresh !== null && batch.dried !== null).length;
  const scope = { site: code, from: month, to: month, known };
  const to = (page: number) =>
    `/sites/${code}/${month}/batches?page=${page}${day === undefined ? "" : `&day=${day}`}${known === undefined ? "" : `&known=${known}`}`;
  return (
    <Frame title={title} here="sites" me={me}>
      <h1>{title}</h1>
      <ul className={styles.facts}>
        <li>
          <a href={`/sites/${code}/${month}${known === undefined ? "" : `?known=${known}`}`}>The month's figures</a>
        </li>
        {day === undefined ? null : (
          <li>
            <a href={`/sites/${code}/${month}/batches${known === undefined ? "" : `?known=${known}`}`}>
              All batches of {monthInWords(month)}
            </a>
          </li>
        )}
        <li>
          <a href={scopeHref("/evidence/tables", scope, { table: "batches", as: "csv" })}>These batches as CSV</a>
        </li>
        <li>
          <a href={scopeHref("/evidence", scope)}>All evidence of the month, also rows not counted</a>
        </li>
      </ul>
      <p>
        {knownInWords(known)}: {counted(batches.length, "batch", "batches")} here = {paired} with both weights +{" "}
        {batches.length - paired} without. Below each value stands the cell in which it was written, and leads to its
        row.
      </p>
      {batches.length === 0 ? (
        <p>No batch of this month is here. Rows that wait for an answer stand with their log.</p>
      ) : (
        <BatchesTable items={batches.slice((at - 1) * ON_A_PAGE, at * ON_A_PAGE)} />
      )}
      {pages === 1 ? null : (
        <ul className={styles.facts}>
          {at > 1 ? (
            <li>
              <a href={to(at - 1)}>Batches before</a>
            </li>
          ) : null}
          <li>
            Part {at} of {pages}
          </li>
          {at < pages ? (
            <li>
              <a href={to(at + 1)}>More batches</a>
            </li>
          ) : null}
        </ul>
      )}
    </Frame>
  );
}
