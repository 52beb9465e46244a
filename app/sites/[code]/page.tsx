import { demoArriving } from "#server/api/request";
import { plusMonths } from "#server/terms/days";
import { ChartFigure } from "../../_charts/ChartFigure";
import { dayCalendar } from "../../_charts/dayCalendar";
import { FigureStrips } from "../../_parts/FigureStrips";
import { Frame } from "../../_parts/Frame";
import { SentLogs } from "../../_parts/SentLogs";
import { dayInWords, monthInWords } from "../../_words/days";
import { arrivingInWords } from "../../_words/demo";
import { METHOD_WORDS } from "../../_words/methods";
import { orNothing, signedIn } from "../../asking";
import { NothingHere } from "../../NothingHere";
import { knownAsked, monthsAsked } from "../monthsAsked";
import { MassAndHeat } from "./MassAndHeat";
import { MonthFiguresShort } from "./MonthFiguresShort";
import { OverTime } from "./OverTime";
import styles from "./page.module.css";
import { Sand } from "./Sand";
import { signalsAsked } from "./signalsAsked";
import { Tests } from "./Tests";
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
  const past = await orNothing(api.site.overTime({ site: code, from, to, ...asOf }));
  if (past === null) return <NothingHere />;
  const [months, { signals, behind }, sent] = await Promise.all([
    api.figures.site({ site: code, from, to, ...asOf }),
    signalsAsked(api, code, from, to, known),
    api.sent.ofSite({ site: code, most: 10 }),
  ]);
  const isOneMonth = from === to;
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
  const arriving = arrivingInWords(demoArriving());
  return (
    <Frame title={name} here="sites" me={me}>
      <h1 className={styles.name}>{isOneMonth ? `${name}, ${monthInWords(from)}` : name}</h1>
      {arriving === null ? null : <p>{arriving}</p>}
      <ul className={styles.facts}>
        <li>{code}</li>
        <li>{site?.method == null ? "way of drying not declared" : METHOD_WORDS[site.method]}</li>
        <li>
          <a href={`/sites/${code}/facts`}>What is declared of it</a>
        </li>
        {isOneMonth ? null : (
          <li>
            <a href={`/sites/${code}?from=${to}&to=${to}${known === undefined ? "" : `&known=${known}`}`}>
              {monthInWords(to)} as a sheet to print
            </a>
          </li>
        )}
        {me.role === "auditor" ? null : (
          <li>
            <a href={me.site === null ? `/send?site=${code}` : "/send"}>Send a log</a>
          </li>
        )}
      </ul>
      {isOneMonth ? <p className={styles.onScreen}>This page prints as the month’s sheet.</p> : null}
      {known === undefined ? null : (
        <p role="status">
          As known on {dayInWords(known)}. <a href={`/sites/${code}?from=${from}&to=${to}`}>Show what is known today</a>
        </p>
      )}
      {isOneMonth ? null : (
        <p className={styles.sheetOf}>
          {monthInWords(from)} to {monthInWords(to)}
        </p>
      )}
      {isOneMonth ? (
        <section className={`${styles.part} ${styles.over}`} aria-labelledby="figures">
          <h2 id="figures">
            <a href={`/sites/${code}/${from}${suffix}`}>Figures of the month</a>
          </h2>
          <MonthFiguresShort months={months} />
        </section>
      ) : null}
      <OverTime past={past} signals={signals} behind={behind} floorMjPerKg={months[0]?.fuel.floorMjPerKg ?? null} />
      <div className={styles.pair}>
        <MassAndHeat months={months} period={past.period} />
        <section className={styles.part} aria-labelledby="days">
          <h2 id="days">Days</h2>
          <ChartFigure
            chart={dayCalendar("What became of each day", new Map(past.days.map(({ day, state }) => [day, state])))}
          />
        </section>
        <Sand sand={past.sand} period={past.period} />
        <Tests tests={past.tests} />
      </div>
      {isOneMonth ? null : (
        <section className={`${styles.part} ${styles.onScreen}`} aria-labelledby="months">
          <h2 id="months">Months</h2>
          <FigureStrips strips={strips} of="Month" />
        </section>
      )}
      <p className={styles.onScreen}>
        <a
          href={`/sites/${code}?from=${plusMonths(from, -12)}&to=${plusMonths(from, -1)}${known === undefined ? "" : `&known=${known}`}`}
        >
          The twelve months before
        </a>
      </p>
      <WhichMonths code={code} from={from} to={to} known={known} today={site?.today ?? to} />
      <div className={styles.onScreen}>
        <SentLogs logs={sent.logs} title="What the site sent" ownSite={me.site} account />
        <p>
          <a href={`/files?site=${code}`}>Everything that the site sent</a>
        </p>
      </div>
    </Frame>
  );
}
