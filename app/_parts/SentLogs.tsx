import type { SentLog } from "#server/terms/history";
import { momentInWords } from "../_words/days";
import { STATE_WORDS, TAKEN_IN_PART, TYPING_WORDS } from "../_words/files";
import { answeredInWords, fatesInWords, whoInWords } from "../_words/history";
import styles from "./SentLogs.module.css";

interface Props {
  readonly logs: readonly SentLog[];
  readonly title: string;
  /** of logs of the programme a site lead gets the own rows */
  readonly ownSite?: string | null;
  /** each log with its account: who sent it, its rows by fate, what became of those that needed an answer */
  readonly account?: boolean;
}

/** What was sent, newest first, each with the way on from there. */
export function SentLogs({ logs, title, ownSite = null, account = false }: Props) {
  return (
    <section className={styles.sent} aria-labelledby="sent">
      <h2 id="sent">{title}</h2>
      {logs.length === 0 ? <p>Nothing yet. The first log that is sent will stand here with its sending slip.</p> : null}
      <ul>
        {logs.map((log) => (
          <li key={log.file}>
            {log.whole ? (
              <a href={wayOn(log)}>
                <bdi>{log.name ?? log.code}</bdi>
              </a>
            ) : (
              <span className={styles.programme}>A log of the programme</span>
            )}{" "}
            <span className={styles.state}>{stateInWords(log)}</span>
            <span className={styles.when}>
              {log.code}, arrived {momentInWords(log.arrivedAt)}
              {account ? `, sent by ${whoInWords(log.sentBy)}` : ""}
              {log.cameBy === "message" ? ", came by message" : ""}
              {account && log.site === null && log.whole ? ", a log of the programme" : ""}
            </span>
            {account ? <AccountOf log={log} ownSite={ownSite} /> : null}
          </li>
        ))}
      </ul>
    </section>
  );
}

function stateInWords({ state, typing, takenBackInPart }: SentLog): string {
  if (takenBackInPart) return TAKEN_IN_PART;
  return typing === null ? STATE_WORDS[state] : TYPING_WORDS[typing];
}

function wayOn({ file, state, typing }: SentLog): string {
  if (state === "withdrawn") return `/files/${file}`;
  return state === "counted" && typing === null ? `/slip/${file}` : `/send/${file}`;
}

function AccountOf({ log, ownSite }: { readonly log: SentLog; readonly ownSite: string | null }) {
  const answered = answeredInWords(log);
  return (
    <>
      <span className={styles.when}>
        {log.whole ? "" : "Of your site "}
        {fatesInWords(log.rows)}
        {answered === null ? "" : `. ${answered}`}.
      </span>
      {log.takenBackWhy === null ? null : (
        <span className={styles.when}>
          Taken back because: <bdi>{log.takenBackWhy}</bdi>
        </span>
      )}
      <span className={styles.ways}>
        {log.whole ? (
          <a className={styles.way} href={`/files/${log.file}`}>
            Its rows
          </a>
        ) : null}
        {log.whole ? (
          <a className={styles.way} href={`/files/${log.file}/original`}>
            The file as it came{log.bytes === null ? "" : ` (${log.bytes.toLocaleString("en-GB")} bytes)`}
          </a>
        ) : null}
        {!log.whole && ownSite !== null ? (
          <a className={styles.way} href={`/files/${log.file}/own?site=${encodeURIComponent(ownSite)}`}>
            The rows of your site, as CSV
          </a>
        ) : null}
      </span>
    </>
  );
}
