import { plusMonths } from "#server/terms/days";
import { MonthKnown } from "../../../_client/MonthKnown";
import { Frame } from "../../../_parts/Frame";
import { SentLogs } from "../../../_parts/SentLogs";
import { monthInWords } from "../../../_words/days";
import { orNothing, signedIn } from "../../../asking";
import { NothingHere } from "../../../NothingHere";
import { knownThenAsked, monthAsked } from "../../monthsAsked";
import styles from "../page.module.css";

interface Props {
  readonly params: Promise<{ readonly code: string; readonly month: string }>;
  readonly searchParams: Promise<{ readonly known?: string }>;
}

export default async function MonthPage({ params, searchParams }: Props) {
  const { code, month } = await params;
  const { api, me } = await signedIn(`/sites/${code}/${month}`);
  if (monthAsked({ month }) === null) return <NothingHere />;
  const known = knownThenAsked(await searchParams);
  const asked = { site: code, from: month, to: month, ...(known === undefined ? {} : { asOf: known }) };
  const found = await orNothing(Promise.all([api.figures.site(asked), api.figures.sincePublished(asked)]));
  if (found === null) return <NothingHere />;
  const [months, published] = found;
  const site = (await api.sites.list()).find((one) => one.code === code);
  const sent = await api.sent.ofSite({ site: code, month, most: 100 });
  const title = `${site?.name ?? code}, ${monthInWords(month)}`;
  const to = (there: string) => `/sites/${code}/${there}${known === undefined ? "" : `?known=${known}`}`;
  return (
    <Frame title={title} here="sites" me={me}>
      <h1>{title}</h1>
      <ul className={styles.facts}>
        <li>
          <a href={`/sites/${code}`}>All months</a>
        </li>
        <li>
          <a href={to(plusMonths(month, -1))}>{monthInWords(plusMonths(month, -1))}</a>
        </li>
        <li>
          <a href={to(plusMonths(month, 1))}>{monthInWords(plusMonths(month, 1))}</a>
        </li>
        <li>
          <a href={to(`${month}/batches`)}>Batches and rows behind the figures</a>
        </li>
      </ul>
      <MonthKnown
        site={code}
        month={month}
        today={site?.today ?? `${month}-28`}
        known={known ?? null}
        months={months}
        published={published}
      />
      <SentLogs logs={sent.logs} title={`Logs that speak of ${monthInWords(month)}`} ownSite={me.site} />
    </Frame>
  );
}
