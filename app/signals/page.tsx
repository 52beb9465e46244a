import { Behind } from "../_parts/Behind";
import { Frame } from "../_parts/Frame";
import { counted, monthInWords } from "../_words/days";
import { INBOX_ORDER, inboxInWords, WAITS_FOR, WAITS_NOW } from "../_words/signalInbox";
import { signedIn } from "../asking";
import { knownAsked } from "../sites/monthsAsked";
import { Answered } from "./Answered";
import { AsKnown, KnownOn, knownSuffix } from "./KnownOn";
import { NothingOpen } from "./NothingOpen";
import styles from "./page.module.css";
import { StoryCard } from "./StoryCard";
import { sortedOut } from "./sortedOut";
import { ToldOnce } from "./ToldOnce";

interface Props {
  readonly searchParams: Promise<{ readonly known?: string }>;
}

/** Everything that changed and waits for an answer: a story each, the costliest first. A site lead sees the own site's. */
export default async function SignalsPage({ searchParams }: Props) {
  const known = knownAsked(await searchParams);
  const { api, me } = await signedIn("/signals");
  const inbox = await api.signals.inbox(known === undefined ? { wait: "briefly" } : { asOf: known });
  const suffix = knownSuffix(known);
  const { together, alone } = sortedOut(inbox.open);
  const mayAnswer = (me.role === "officer" || me.role === "operator") && known === undefined;
  return (
    <Frame title="Signals" here="signals" me={me}>
      <h1>{inboxInWords(alone.length, together.length)}</h1>
      <AsKnown known={known} today="/signals" />
      <Behind behind={inbox.behind} />
      {me.site === null ? (
        <ul className={styles.ways}>
          <li>
            <a href={`/signals/accepted${suffix}`}>False alarms we accept</a>
          </li>
        </ul>
      ) : null}
      {alone.length + together.length === 0 ? (
        <NothingOpen inbox={inbox} me={me} />
      ) : (
        <p className={styles.order}>
          {alone.length > 1 ? INBOX_ORDER : null} {me.site === null ? WAITS_NOW : null} {mayAnswer ? WAITS_FOR : null}
        </p>
      )}
      {together.map((group) => (
        <ToldOnce key={group.key} group={group} suffix={suffix} />
      ))}
      {alone.length === 0 ? null : (
        <ol className={styles.stories}>
          {alone.map((story) => (
            <StoryCard key={story.signals[0]?.id} story={story} suffix={suffix} />
          ))}
        </ol>
      )}
      {inbox.answered.length === 0 ? null : <Answered stories={inbox.answered} suffix={suffix} />}
      {inbox.watchedTo === null ? null : (
        <p className={styles.note}>
          Watched to the end of {monthInWords(inbox.watchedTo)}, as far as logs are here;{" "}
          {counted(inbox.open.length + inbox.answered.length, "story", "stories")} in twelve months.
        </p>
      )}
      <KnownOn known={known} action="/signals" />
    </Frame>
  );
}
