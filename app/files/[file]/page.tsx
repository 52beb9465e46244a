import type { Api } from "#server/api/request";
import { Account } from "../../_parts/Account";
import { Deeds } from "../../_parts/Deeds";
import { Frame } from "../../_parts/Frame";
import { PictureOf } from "../../_parts/PictureOf";
import { RowsTable } from "../../_parts/RowsTable";
import { SendAgain } from "../../_parts/SendAgain";
import { SettledBy } from "../../_parts/SettledBy";
import { TakeBack } from "../../_parts/TakeBack";
import { momentInWords } from "../../_words/days";
import { STATE_WORDS, TAKEN_IN_PART } from "../../_words/files";
import { orNothing, signedIn } from "../../asking";
import { NothingHere } from "../../NothingHere";
import { single } from "../../single";
import { ON_A_PAGE } from "../rowPlace";
import styles from "./page.module.css";

interface Props {
  readonly params: Promise<{ readonly file: string }>;
  readonly searchParams: Promise<{ readonly page?: string; readonly fate?: string }>;
}

/** A log row by row: what stands in it, what became of it and why, and the bytes as they came. */
export default async function FilePage({ params, searchParams }: Props) {
  const { file } = await params;
  const { page = "1", fate } = single(await searchParams);
  const { api, me } = await signedIn(`/files/${file}`);
  const log = await orNothing(api.logs.file({ file }));
  if (log === null) return <NothingHere />;
  const all = await api.logs.rows({ file });
  const chosen = fate === undefined ? all : all.filter((row) => row.fate === fate);
  const pages = Math.max(1, Math.ceil(chosen.length / ON_A_PAGE));
  const at = Math.min(pages, Math.max(1, Number.parseInt(page, 10) || 1));
  const count = (which: string) => all.filter((row) => row.fate === which).length;
  const name = log.name ?? log.code;
  const to = (query: string) => `/files/${file}${query}`;
  return (
    <Frame title={`${log.picture === null ? "Rows of" : "Picture:"} ${name}`} here="sites" me={me}>
      <h1>
        {log.picture === null ? "Rows of" : "Picture:"} <bdi>{name}</bdi>
      </h1>
      <p>
        {log.code}, {stateInWords(log)}; arrived {momentInWords(log.arrivedAt)}
        {log.cameBy === "message" ? ", came by message" : ""}
        {log.claimedAt === null ? "" : `, sent on ${log.claimedAt.slice(0, 10)} as the sender says`}.
      </p>
      <p className={styles.ways}>
        {log.state === "counted" ? <a href={`/slip/${file}`}>Sending slip</a> : null}
        <a href={to("/original")}>The file as it came ({log.bytes.toLocaleString("en-GB")} bytes)</a>
        {log.site === null ? null : <a href={`/sites/${log.site}`}>The site</a>}
        <a href={`/files?site=${log.site ?? "(programme)"}`}>Everything sent</a>
      </p>
      <SettledBy settled={log.settled} />
      {log.state !== "withdrawn" ? null : log.takenBack === null ? (
        <p>Nothing of it counts. Its rows stand below as they were read.</p>
      ) : (
        <p>
          It is taken back part by part, and not all of it is: what is not taken back yet still counts.{" "}
          {me.role === "auditor" ? null : <a href={`/send/${file}`}>How far that is</a>}
        </p>
      )}
      <Deeds deeds={await api.sent.deeds({ file })} />
      {me.role === "auditor" || log.takenBack !== null ? null : log.state === "withdrawn" ? (
        <SendAgain file={file} />
      ) : (
        <TakeBack file={file} />
      )}
      {log.typedFrom === null ? null : (
        <p>
          Typed from the picture <a href={`/files/${log.typedFrom.file}`}>{log.typedFrom.code}</a>.
        </p>
      )}
      {log.picture === null ? null : (
        <PictureOf file={file} kind={log.picture} name={name} typed={log.typed} mayType={me.role !== "auditor"} />
      )}
      {log.picture !== null ? null : all.length === 0 ? (
        <p>
          No row was counted yet.{" "}
          {me.role === "auditor" || log.state === "withdrawn" ? null : (
            <a href={`/send/${file}`}>Look at what was understood</a>
          )}
        </p>
      ) : (
        <>
          <Account
            rows={{ rows: all.length, counted: count("counted"), held: count("held"), setAside: count("set-aside") }}
          />
          <p className={styles.ways}>
            <a href={to("")} aria-current={fate === undefined ? "true" : undefined}>
              All rows
            </a>
            <a href={to("?fate=held")} aria-current={fate === "held" ? "true" : undefined}>
              Only those that need an answer
            </a>
          </p>
          <RowsTable rows={chosen.slice((at - 1) * ON_A_PAGE, at * ON_A_PAGE)} typedFrom={log.typedFrom} />
          {pages === 1 ? null : (
            <p className={styles.ways}>
              {at > 1 ? (
                <a href={to(`?page=${at - 1}${fate === undefined ? "" : `&fate=${fate}`}`)}>Rows before</a>
              ) : null}
              <span>
                Part {at} of {pages}
              </span>
              {at < pages ? (
                <a href={to(`?page=${at + 1}${fate === undefined ? "" : `&fate=${fate}`}`)}>More rows</a>
              ) : null}
            </p>
          )}
        </>
      )}
      <p>
        SHA-256 <code>{log.sha256}</code>
      </p>
    </Frame>
  );
}

function stateInWords({ takenBack, picture, state }: Awaited<ReturnType<Api["logs"]["file"]>>): string {
  if (takenBack !== null) return TAKEN_IN_PART;
  return picture === null || state === "withdrawn" ? STATE_WORDS[state] : "a picture";
}
