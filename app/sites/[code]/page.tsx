import { plusMonths } from "#server/terms/days";
import { FigureStrips } from "../../_parts/FigureStrips";
import { Frame } from "../../_parts/Frame";
import { SentLogs } from "../../_parts/SentLogs";
import { dayInWords, monthInWords } from "../../_words/days";
import { METHOD_WORDS } from "../../_words/methods";
import { orNothing, signedIn } from "../../asking";
import { NothingHere } from "../../NothingHere";
import { knownAsked, monthsAsked } from "../monthsAsked";
import styles from "./page.module.css";
import { WhichMonths } from "./WhichMonths";

interface Props {
  readonly params: Promise<{ readonly code: string }>;
  readonly searchParams: Promise<Readonly<Record<string, string | undefined>>>;
}

export default async function SitePage({ params, searchParams }: Props) {
  const { code } = await params;
  const asked = await searchParams;
  const { api, me } = await signedIn(`/sites/${code}`);
  const site = (await api.sites.list()).find((one) => one.code === code);
  const { from, to } = monthsAsked(asked, site?.today ?? "2000-01-01");
  const known = knownAsked(asked);
  const asOf = known === undefined ? {} : { asOf: known };
  const months = await orNothing(api.figures.site({ site: code, from, to, ...asOf }));
  if (months === null) return <NothingHere />;
  const logs = await api.logs.list({ site: code });
  const suffix = known === undefined ? "" : `?known=${known}`;
  const strips = months
    .map((figures) => ({
      key: `${figures.month} ${figures.method}`,
      title: monthInWords(figures.month),
      ...(figures.method === null || figures.method === site?.method ? {} : { note: METHOD_WORDS[figures.method] }),
      href: `/sites/${code}/${figures.month}${suffix}`,
      figures,
    }))
    .reverse();
  const name = site?.name ?? code;
  return (
    <Frame title={name} here="sites" me={me}>
      <h1>{name}</h1>
      <ul className={styles.facts}>
        <li>{code}</li>
        <li>{site?.method == null ? "way of drying not declared" : METHOD_WORDS[site.method]}</li>
        <li>
          <a href={`/sites/${code}/facts`}>What is declared of it</a>
        </li>
        {me.role === "auditor" ? null : (
          <li>
            <a href={me.site === null ? `/send?site=${code}` : "/send"}>Send a log</a>
          </li>
        )}
      </ul>
      {known === undefined ? null : (
        <p role="status">
          As known on {dayInWords(known)}. <a href={`/sites/${code}?from=${from}&to=${to}`}>Show what is known today</a>
        </p>
      )}
      <FigureStrips strips={strips} of="Month" />
      <p>
        <a
          href={`/sites/${code}?from=${plusMonths(from, -12)}&to=${plusMonths(from, -1)}${known === undefined ? "" : `&known=${known}`}`}
        >
          The twelve months before
        </a>
      </p>
      <WhichMonths code={code} from={from} to={to} known={known} today={site?.today ?? to} />
      <SentLogs logs={logs} title="What the site sent" />
    </Frame>
  );
}
