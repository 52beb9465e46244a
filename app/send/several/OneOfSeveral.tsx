import type { Api } from "#server/api/request";
import { counted } from "../../_words/days";
import { STATE_WORDS, TYPING_WORDS } from "../../_words/files";
import { refusalInWords } from "../../_words/problems";
import { orNothing } from "../../asking";
import styles from "./page.module.css";

interface Props {
  readonly api: Api;
  readonly file: string;
  /** the month that was said for all of them */
  readonly month: string | null;
}

/** One log among several: its name, what was understood in a line, and where to go on. */
export async function OneOfSeveral({ api, file, month }: Props) {
  const log = await orNothing(api.logs.file({ file }));
  if (log === null) return null;
  const way = log.state === "counted" ? `/slip/${file}` : `/send/${file}${month === null ? "" : `?month=${month}`}`;
  return (
    <li className={styles.file}>
      <a href={way}>
        <bdi>{log.name ?? log.code}</bdi>
      </a>
      <span className={styles.code}>{log.code}</span>
      <p>{await inShort(api, log, month)}</p>
    </li>
  );
}

/** What became of a log, or what would, in one sentence. */
async function inShort(api: Api, log: Awaited<ReturnType<Api["logs"]["file"]>>, month: string | null): Promise<string> {
  if (log.picture !== null) return `A picture, ${TYPING_WORDS[log.typed.length === 0 ? "waiting" : "typed"]}.`;
  if (log.state === "counted" || log.state === "withdrawn") return `It is ${STATE_WORDS[log.state]}.`;
  const reading = await api.logs.understood({ file: log.file, ...(month === null ? {} : { period: month }) });
  if ("refused" in reading) return refusalInWords(reading);
  const { rows, counted: ready, held, setAside } = reading.counts;
  if (rows === 0 || reading.tables.length === 0) return "No table was found in it.";
  const asked = reading.questions.length + (reading.look?.faults.length ?? 0);
  const parts = [
    `${ready} ready to count`,
    ...(held === 0 ? [] : [`${held} for you to answer`]),
    ...(setAside === 0 ? [] : [`${setAside} no batch`]),
    ...(asked === 0 ? [] : [`${counted(asked, "question")} about the whole`]),
  ];
  return `${counted(rows, "row")}: ${parts.join(", ")}.`;
}
