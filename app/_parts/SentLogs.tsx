import { momentInWords } from "../_words/days";
import { STATE_WORDS, TYPING_WORDS } from "../_words/files";
import styles from "./SentLogs.module.css";

interface Log {
  readonly file: string;
  readonly code: string;
  readonly name: string | null;
  readonly state: keyof typeof STATE_WORDS;
  readonly arrivedAt: string;
  readonly cameBy: string;
  /** null: no picture */
  readonly typing: keyof typeof TYPING_WORDS | null;
}

/** What a site sent, newest first, each with the way on from there. */
export function SentLogs({ logs, title }: { readonly logs: readonly Log[]; readonly title: string }) {
  return (
    <section className={styles.sent} aria-labelledby="sent">
      <h2 id="sent">{title}</h2>
      {logs.length === 0 ? <p>Nothing yet. The first log that is sent will stand here with its sending slip.</p> : null}
      <ul>
        {logs.map(({ file, code, name, state, arrivedAt, cameBy, typing }) => (
          <li key={file}>
            <a href={state === "counted" ? `/slip/${file}` : `/send/${file}`}>
              <bdi>{name ?? code}</bdi>
            </a>{" "}
            <span className={styles.state}>{typing === null ? STATE_WORDS[state] : TYPING_WORDS[typing]}</span>
            <span className={styles.when}>
              {code}, arrived {momentInWords(arrivedAt)}
              {cameBy === "message" ? ", came by message" : ""}
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}
