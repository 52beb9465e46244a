import { Account } from "../../../_parts/Account";
import { Frame } from "../../../_parts/Frame";
import { RowsTable } from "../../../_parts/RowsTable";
import { refusalInWords } from "../../../_words/problems";
import { orNothing, signedIn } from "../../../asking";
import { ON_A_PAGE } from "../../../files/rowPlace";
import { NothingHere } from "../../../NothingHere";
import { single } from "../../../single";
import { unpackSaid } from "../../said";
import { NotYetRead } from "../NotYet";
import { queryOf, understoodOf } from "../waitedFor";

interface Props {
  readonly params: Promise<{ readonly file: string }>;
  readonly searchParams: Promise<{ readonly month?: string; readonly said?: string; readonly page?: string }>;
}

/** Every row of a log with what would become of it, before anything is stored. */
export default async function RowsToBePage({ params, searchParams }: Props) {
  const { file } = await params;
  const { month = "", said, page = "1" } = single(await searchParams);
  const { api, me } = await signedIn(`/send/${file}/rows`);
  if (me.role === "auditor") return <NothingHere />;
  const log = await orNothing(api.logs.file({ file }));
  if (log === null || log.picture !== null) return <NothingHere />;
  const answers = unpackSaid(said, log.answers) ?? log.answers;
  const period = /^\d{4}-(0[1-9]|1[0-2])$/.test(month) ? month : log.period;
  const look = { file, ...(period === null ? {} : { period }), ...(answers === null ? {} : { answers }) };
  const waited = await understoodOf(api, log, look);
  if (!("answer" in waited)) return <NotYetRead me={me} log={log} waited={waited} query={queryOf({ month, said })} />;
  const reading = waited.answer;
  const name = log.name ?? log.code;
  const to = (at: number) => `/send/${file}/rows?${new URLSearchParams({ month, said: said ?? "", page: String(at) })}`;
  if ("refused" in reading)
    return (
      <Frame title={`Rows of ${name}`} here="send" me={me}>
        <h1>
          Rows of <bdi>{name}</bdi>
        </h1>
        <p role="alert">{refusalInWords(reading)}</p>
      </Frame>
    );
  const pages = Math.max(1, Math.ceil(reading.rows.length / ON_A_PAGE));
  const at = Math.min(pages, Math.max(1, Number.parseInt(page, 10) || 1));
  return (
    <Frame title={`What would become of the rows of ${name}`} here="send" me={me}>
      <h1>
        What would become of the rows of <bdi>{name}</bdi>
      </h1>
      <p>
        Nothing is stored by looking.{" "}
        <a href={`/send/${file}?${new URLSearchParams({ month, said: said ?? "" })}`}>Go back</a> to answer or to send.
      </p>
      <Account rows={reading.counts} />
      <RowsTable rows={reading.rows.slice((at - 1) * ON_A_PAGE, at * ON_A_PAGE)} />
      {pages === 1 ? null : (
        <p>
          {at > 1 ? <a href={to(at - 1)}>Rows before</a> : null} Part {at} of {pages}{" "}
          {at < pages ? <a href={to(at + 1)}>More rows</a> : null}
        </p>
      )}
    </Frame>
  );
}
