import type { Api } from "#server/api/request";
import { counted } from "../../_words/days";
import { STATE_WORDS, TAKEN_IN_PART, TYPING_WORDS } from "../../_words/files";
import { refusalInWords } from "../../_words/problems";
import { progressInWords } from "../../_words/underWay";
import { orNothing } from "../../asking";
import { shortlyOf } from "../[file]/waitedFor";
import styles from "./page.module.css";

type Log = Awaited<ReturnType<Api["logs"]["file"]>>;

/** One log among several. */
export interface One {
  readonly log: Log;
  /** where to go on */
  readonly way: string;
  /** what was understood of it, in a sentence */
  readonly says: string;
  /** it is still being read: the sentence says how far it is */
  readonly isUnderWay: boolean;
}

/** What is shown of one log among several; null where there is none. `month` was said for all of them. */
export async function oneOfSeveral(api: Api, file: string, month: string | null): Promise<One | null> {
  const log = await orNothing(api.logs.file({ file }));
  if (log === null) return null;
  const way = log.state === "counted" ? `/slip/${file}` : `/send/${file}${month === null ? "" : `?month=${month}`}`;
  return { log, way, ...(await inShort(api, log, month)) };
}

/** Its name, what was understood in a line, and where to go on. */
export function OneOfSeveral({ one: { log, way, says, isUnderWay } }: { readonly one: One }) {
  return (
    <li className={styles.file}>
      <a href={way}>
        <bdi>{log.name ?? log.code}</bdi>
      </a>
      <span className={styles.code}>{log.code}</span>
      <p {...(isUnderWay ? { role: "status" } : {})}>{says}</p>
    </li>
  );
}

/** What became of a log, or what would, in one sentence. */
async function inShort(api: Api, log: Log, month: string | null): Promise<Pick<One, "says" | "isUnderWay">> {
  const done = (says: string) => ({ says, isUnderWay: false });
  if (log.picture !== null) return done(`A picture, ${TYPING_WORDS[log.typed.length === 0 ? "waiting" : "typed"]}.`);
  if (log.takenBack !== null) return done(`It is ${TAKEN_IN_PART}.`);
  if (log.state === "counted" || log.state === "withdrawn") return done(`It is ${STATE_WORDS[log.state]}.`);
  if (log.soFar !== null) return done("A part of it is counted. Open it to go on.");
  const waited = await shortlyOf(
    api,
    log,
    { file: log.file, ...(month === null ? {} : { period: month }) },
    understoodInShort,
  );
  if ("stopped" in waited) return done("Its reading was stopped. Open it to read it again.");
  if ("complaint" in waited) return done(waited.complaint);
  if ("progress" in waited) {
    const far = waited.progress === null ? "" : ` ${progressInWords(waited.progress)}`;
    return { says: `It is being read.${far}`, isUnderWay: true };
  }
  return done(waited.answer);
}

function understoodInShort(reading: Awaited<ReturnType<Api["logs"]["understood"]>>): string {
  if ("refused" in reading) return refusalInWords(reading);
  const { rows, counted: ready, held, setAside } = reading.counts;
  if (rows === 0 || reading.tables.length === 0) return "No table was found in it.";
  const asked = reading.questions.length + (reading.look?.faults.length ?? 0);
  const parts = [
    `${ready.toLocaleString("en")} ready to count`,
    ...(held === 0 ? [] : [`${held.toLocaleString("en")} for you to answer`]),
    ...(setAside === 0 ? [] : [`${setAside.toLocaleString("en")} no batch`]),
    ...(asked === 0 ? [] : [`${counted(asked, "question")} about the whole`]),
  ];
  return `${counted(rows, "row")}: ${parts.join(", ")}.`;
}
