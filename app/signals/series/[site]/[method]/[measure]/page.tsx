import type { Method } from "#server/terms/batch";
import { WATCHED } from "#server/terms/signal";
import { Behind } from "../../../../../_parts/Behind";
import { Frame } from "../../../../../_parts/Frame";
import { dayInWords, monthInWords } from "../../../../../_words/days";
import { METHOD_WORDS } from "../../../../../_words/methods";
import { whereOf } from "../../../../../_words/signalPage";
import { foundInWords, noDelaysInWords } from "../../../../../_words/signalSeries";
import { stepInWords } from "../../../../../_words/signalStory";
import { WATCHED_WORDS } from "../../../../../_words/signals";
import { orNothing, signedIn } from "../../../../../asking";
import { NothingHere } from "../../../../../NothingHere";
import { knownAsked, monthsAsked } from "../../../../../sites/monthsAsked";
import { ChangeFigure } from "../../../../ChangeFigure";
import { drawnOf } from "../../../../drawnOf";
import { AsKnown, knownSuffix } from "../../../../KnownOn";
import { seriesHref, TOGETHER } from "../../../../seriesHref";
import { sumsOf } from "../../../../sumsOf";
import { Held } from "./Held";
import styles from "./page.module.css";
import { References } from "./References";
import { WhichMonths } from "./WhichMonths";

interface Props {
  readonly params: Promise<{ readonly site: string; readonly method: string; readonly measure: string }>;
  readonly searchParams: Promise<Readonly<Record<string, string | undefined>>>;
}

const METHODS = Object.keys(METHOD_WORDS) as Method[];

/** All days of one series with its references, and how it is watched: for those who want to check. */
export default async function SeriesPage({ params, searchParams }: Props) {
  const asked = await params;
  const { api, me } = await signedIn(`/signals/series/${asked.site}/${asked.method}/${asked.measure}`);
  const measure = WATCHED.find((one) => one === asked.measure);
  const method = METHODS.find((one) => one === asked.method);
  if (measure === undefined || method === undefined) return <NothingHere />;
  const site = asked.site === TOGETHER ? null : asked.site;
  const sites = await api.sites.list();
  const today = (sites.find(({ code }) => code === site) ?? sites[0])?.today ?? new Date().toISOString().slice(0, 10);
  const words = await searchParams;
  const known = knownAsked(words);
  const suffix = knownSuffix(known);
  const { from, to } = monthsAsked(words, known ?? today);
  const asOf = known === undefined ? ({ wait: "briefly" } as const) : { asOf: known };
  const shown = await orNothing(api.signals.stream({ site, method, measure, from, to, ...asOf }));
  if (shown === null) return <NothingHere />;
  const drawn = drawnOf(shown, null, sumsOf(shown.points, shown.references));
  const where = whereOf(shown.stream, shown.name);
  const name = WATCHED_WORDS[measure].name.toLowerCase();
  return (
    <Frame title={`${where}: ${name}, all days`} here="signals" me={me}>
      <h1>
        {where}: {name}, all days
      </h1>
      <ul className={styles.ways}>
        {site === null ? null : (
          <li>
            <a href={`/sites/${site}${suffix}`}>The site</a>
          </li>
        )}
        <li>{METHOD_WORDS[method]}</li>
        <li>
          <a href={`/signals${suffix}`}>All signals</a>
        </li>
        {me.site === null ? (
          <li>
            <a href={`/signals/accepted${suffix}`}>False alarms we accept</a>
          </li>
        ) : null}
      </ul>
      <AsKnown known={known} today={seriesHref({ site, method, measure }, `?from=${from}&to=${to}`)} />
      <Behind behind={shown.behind} />
      {drawn === null ? (
        <p>
          From {monthInWords(from)} to {monthInWords(to)} this series has no day. Choose other months below.
        </p>
      ) : (
        <ChangeFigure drawn={drawn} />
      )}
      <WhichMonths from={from} to={to} known={known} today={today} />
      {shown.signals.length === 0 ? null : (
        <section aria-labelledby="signals">
          <h2 id="signals">Signals told in these months</h2>
          <ul>
            {shown.signals.map((signal) => (
              <li key={signal.id}>
                {dayInWords(signal.raisedOn)}: <a href={`/signals/${signal.id}${suffix}`}>{stepInWords(signal)}</a>
                {signal.confirms === null ? "" : `, which says again what was told on ${dayInWords(signal.confirms)}`}
              </li>
            ))}
          </ul>
        </section>
      )}
      <section aria-labelledby="soon">
        <h2 id="soon">How soon a change would be found</h2>
        {shown.delays.length === 0 ? (
          <p>{noDelaysInWords(shown.references.at(-1), site === null)}</p>
        ) : (
          <ul>
            {shown.delays.map((found) => (
              <li key={found.change}>{foundInWords(found, shown.stream, known)}</li>
            ))}
          </ul>
        )}
      </section>
      <References references={shown.references} stream={shown.stream} />
      {shown.held === null ? null : <Held held={shown.held} />}
    </Frame>
  );
}
