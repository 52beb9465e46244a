import { redirect } from "next/navigation";
import { plusMonths } from "#server/terms/days";
import { Frame } from "../../_parts/Frame";
import { COMPARED_WORDS } from "../../_words/comparison";
import { dayInWords, momentInWords, monthInWords } from "../../_words/days";
import { orNothing, signedIn } from "../../asking";
import { NothingHere } from "../../NothingHere";
import { single } from "../../single";
import { addressOf, comparisonAsked } from "../asked";
import { apartAddress, apartAsked, apartTitle, SET_APART } from "./asked";
import { BeyondChance } from "./BeyondChance";
import styles from "./page.module.css";
import { TwoSites } from "./TwoSites";

interface Props {
  readonly searchParams: Promise<Readonly<Record<string, string | undefined>>>;
}

/** For those who want to know how far sites truly differ: what chance explains, and two sites against each other. */
export default async function ApartPage({ searchParams }: Props) {
  const words = single(await searchParams);
  const { api, me } = await signedIn("/compare/apart");
  if (me.site !== null) redirect(`/sites/${me.site}`);
  const today = (await api.sites.list())[0]?.today ?? new Date().toISOString().slice(0, 10);
  const asked = apartAsked(words, plusMonths(today.slice(0, 7), -1));
  const input = { month: asked.month, ...(asked.known === undefined ? {} : { asOf: asked.known }) };
  const found = await orNothing(
    Promise.all([
      api.compare.month(input),
      asked.two === null ? null : api.compare.two({ ...input, first: asked.two[0], second: asked.two[1] }),
    ]),
  );
  if (found === null) return <NothingHere />;
  const [compared, two] = found;
  const { ledgerSize, time } = compared.asKnownOn;
  return (
    <Frame title={apartTitle(asked)} here="compare" me={me}>
      <p>
        <a href={addressOf(comparisonAsked({ month: asked.month, known: asked.known }, asked.month))}>
          All sites, {monthInWords(asked.month)}
        </a>
      </p>
      <h1>{apartTitle(asked)}</h1>
      {asked.known === undefined ? null : <p role="status">As known on {dayInWords(asked.known)}.</p>}
      <nav aria-label="Measure">
        <ul className={styles.kinds}>
          {SET_APART.map((measure) => (
            <li key={measure}>
              <a
                href={apartAddress({ ...asked, measure, two: null })}
                aria-current={measure === asked.measure ? "page" : undefined}
              >
                {COMPARED_WORDS[measure].name}
              </a>
            </li>
          ))}
        </ul>
      </nav>
      <BeyondChance compared={compared} measure={asked.measure} />
      <TwoSites asked={asked} rows={compared.rows} said={two} />
      <p className={styles.note}>
        As known {time === null ? "before the first record" : `on ${momentInWords(time)}`}, record {ledgerSize}.
      </p>
    </Frame>
  );
}
