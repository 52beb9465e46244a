import { monthOf, plusMonths } from "#server/terms/days";
import { Behind } from "../../../_parts/Behind";
import { Frame } from "../../../_parts/Frame";
import { COUNTED_ONCE, NOT_COUNTED, toldInMonth } from "../../../_words/signalAccepted";
import { signedIn } from "../../../asking";
import { NothingHere } from "../../../NothingHere";
import { knownAsked, monthAsked } from "../../../sites/monthsAsked";
import { AsKnown, KnownOn, knownSuffix } from "../../KnownOn";
import styles from "../../page.module.css";
import { SignalRows } from "../../SignalRows";
import { countedIn } from "./countedIn";

interface Props {
  readonly params: Promise<{ readonly month: string }>;
  readonly searchParams: Promise<{ readonly known?: string }>;
}

const MOST_MONTHS = 36;

/** The signals that one month's count holds, and apart from them those that it leaves out. */
export default async function ToldPage({ params, searchParams }: Props) {
  const month = monthAsked(await params);
  const { api, me } = await signedIn(`/signals/told/${month ?? ""}`);
  if (month === null) return <NothingHere />;
  const known = knownAsked(await searchParams);
  const suffix = knownSuffix(known);
  const sites = await api.sites.list();
  const today = known ?? sites[0]?.today ?? new Date().toISOString().slice(0, 10);
  // what became of them is told as far as it is known, not as it was at the month's end
  const [, to = month] = [month, today.slice(0, 7), plusMonths(month, MOST_MONTHS - 1)].sort();
  const asOf = known === undefined ? ({ wait: "briefly" } as const) : { asOf: known };
  const { signals, behind } = await api.signals.list({ from: month, to, ...asOf });
  const names = new Map(sites.map(({ code, name }) => [code, name]));
  const rows = signals
    .filter(({ raisedOn }) => monthOf(raisedOn) === month)
    .map((signal) => ({ name: names.get(signal.site ?? "") ?? null, signal }));
  const { counted, others } = countedIn(rows);
  const title = toldInMonth(month, counted.length);
  const here = `/signals/told/${month}`;
  return (
    <Frame title={title} here="signals" me={me}>
      <h1>{title}</h1>
      <ul className={styles.ways}>
        {me.site === null ? (
          <li>
            <a href={`/signals/accepted${suffix}`}>False alarms we accept</a>
          </li>
        ) : null}
        <li>
          <a href={`/signals${suffix}`}>All signals</a>
        </li>
      </ul>
      <AsKnown known={known} today={here} />
      <Behind behind={behind} />
      <p className={styles.order}>{COUNTED_ONCE}</p>
      {counted.length === 0 ? null : <SignalRows rows={counted} suffix={suffix} label={title} />}
      {others.length === 0 ? null : (
        <section aria-labelledby="others">
          <h2 id="others">Not counted</h2>
          <p className={styles.order}>{NOT_COUNTED}</p>
          <SignalRows rows={others} suffix={suffix} label="Signals that are not counted" />
        </section>
      )}
      <KnownOn known={known} action={here} />
    </Frame>
  );
}
