import { redirect } from "next/navigation";
import { demoArriving } from "#server/api/request";
import type { Method } from "#server/terms/batch";
import { plusMonths } from "#server/terms/days";
import { Behind } from "../_parts/Behind";
import { Frame } from "../_parts/Frame";
import { dayInWords, listInWords, momentInWords, monthInWords } from "../_words/days";
import { arrivingInWords } from "../_words/demo";
import { METHOD_WORDS } from "../_words/methods";
import { programmeInWords, silentInWords, whichChangedInWords } from "../_words/programme";
import { mayMeanTogether, togetherInWords } from "../_words/signals";
import { signedIn } from "../asking";
import { single } from "../single";
import { apartAddress } from "./apart/asked";
import { arranged, isNotOpen } from "./arranged";
import { addressOf, comparisonAsked } from "./asked";
import { Choices } from "./Choices";
import { CompareTable } from "./CompareTable";
import { HowToRead } from "./HowToRead";
import { inParts } from "./inParts";
import { Parts } from "./Parts";
import styles from "./page.module.css";

interface Props {
  readonly searchParams: Promise<Readonly<Record<string, string | undefined>>>;
}

/** All sites in one month, like with like. A site lead has one site, and goes straight there. */
export default async function ComparePage({ searchParams }: Props) {
  const words = single(await searchParams);
  const { api, me } = await signedIn("/compare");
  if (me.site !== null) redirect(`/sites/${me.site}`);
  const sites = await api.sites.list();
  const today = sites[0]?.today ?? new Date().toISOString().slice(0, 10);
  const asked = comparisonAsked(words, plusMonths(today.slice(0, 7), -1));
  const input = { month: asked.month, ...(asked.known === undefined ? {} : { asOf: asked.known }) };
  const [compared, { signals, behind }] = await Promise.all([
    api.compare.month(input),
    api.signals.standing({ ...input, wait: "not" }),
  ]);
  const rows = arranged(compared.rows, signals, asked);
  const parts = inParts(rows);
  const shown = Math.min(asked.part, parts.length) - 1;
  const name = new Map(compared.rows.map((row) => [row.site, row.name]));
  const alone = signals.filter(({ site, together }) => site !== null && !together);
  const changed = [...new Set(alone.flatMap(({ site }) => site ?? []))];
  const together = signals.filter(({ site }) => site === null);
  const silent = silentInWords(compared.programme.silent.map((site) => name.get(site) ?? site));
  const closed = compared.rows.filter(isNotOpen).map((row) => row.name);
  const dryers = (Object.keys(METHOD_WORDS) as Method[]).filter((one) =>
    compared.rows.some(({ method }) => method === one),
  );
  const arriving = arrivingInWords(demoArriving());
  return (
    <Frame title={`Sites compared, ${monthInWords(asked.month)}`} here="compare" me={me}>
      <h1 className={styles.aloud}>{programmeInWords(asked.month, { ...compared.programme, changed, behind })}</h1>
      {arriving === null ? null : <p>{arriving}</p>}
      {silent === null ? null : <p>{silent}</p>}
      <Behind behind={behind} />
      <p>
        {whichChangedInWords(asked.month)} <a href="/signals">What waits for an answer now</a>
      </p>
      {together.map((signal) => (
        <p key={`${signal.method} ${signal.measure}`}>
          {togetherInWords(signal, METHOD_WORDS[signal.method])} {mayMeanTogether}
        </p>
      ))}
      {asked.known === undefined ? null : (
        <p role="status">
          As known on {dayInWords(asked.known)}.{" "}
          <a href={addressOf(asked, { known: undefined })}>Show what is known today</a>
        </p>
      )}
      <Choices asked={asked} today={today} dryers={dryers} />
      {rows.length === 0 ? (
        <p>
          {sites.length === 0 ? "There is no site yet." : "No site used this dryer in this month."}{" "}
          {sites.length === 0 && me.role === "officer" ? <a href="/sites/new">Open the first one</a> : null}
        </p>
      ) : (
        <>
          <Parts asked={asked} parts={parts} shown={shown} />
          <CompareTable
            rows={parts[shown] ?? []}
            all={rows}
            compared={compared}
            signals={signals}
            suffix={asked.known === undefined ? "" : `?known=${asked.known}`}
          />
          {closed.length === 0 ? null : <p className={styles.note}>Not open in this month: {listInWords(closed)}.</p>}
          <section aria-labelledby="marks">
            <h2 id="marks">How to read the marks</h2>
            <HowToRead />
            <p className={styles.note}>
              A higher yield is not a better one: it may mean wetter product, a tare left in, or drier larvae. Where
              fewer than four sites share dryer, fuel and weighing moments, yield and throughput are compared with sites
              of the same dryer whatever their fuel. A step with “since” is a change that stands; ask before judging.
            </p>
          </section>
          <p>
            <a href={apartAddress({ month: asked.month, known: asked.known, measure: "dry-yield", two: null })}>
              How far apart are they, beyond chance? Two sites against each other
            </a>
          </p>
          <p className={styles.note}>
            As known{" "}
            {compared.asKnownOn.time === null
              ? "before the first record"
              : `on ${momentInWords(compared.asKnownOn.time)}`}
            , record {compared.asKnownOn.ledgerSize}.
          </p>
        </>
      )}
    </Frame>
  );
}
