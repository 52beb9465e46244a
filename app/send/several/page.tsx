import { AskedAgain } from "../../_parts/AskedAgain";
import { Complaints } from "../../_parts/Form";
import { Frame } from "../../_parts/Frame";
import { signedIn } from "../../asking";
import { NothingHere } from "../../NothingHere";
import { noteFor } from "../../note";
import { single } from "../../single";
import { OneOfSeveral, oneOfSeveral } from "./OneOfSeveral";
import styles from "./page.module.css";

interface Props {
  readonly searchParams: Promise<{ readonly files?: string; readonly month?: string; readonly note?: string }>;
}

/** As many as can be sent at once. */
const MOST = 20;

/** Several logs that came at once, each with what was understood of it and the way to send it. */
export default async function SeveralPage({ searchParams }: Props) {
  const asked = single(await searchParams);
  const here = `/send/several?${new URLSearchParams({ files: asked.files ?? "" })}`;
  const { api, me } = await signedIn(here);
  if (me.role === "auditor") return <NothingHere />;
  const files = [...new Set((asked.files ?? "").split("."))].filter((file) => file !== "");
  const month = /^\d{4}-(0[1-9]|1[0-2])$/.test(asked.month ?? "") ? (asked.month ?? null) : null;
  const { wrong } = await noteFor(asked.note);
  const logs = await Promise.all(files.slice(0, MOST).map((file) => oneOfSeveral(api, file, month)));
  return (
    <Frame title="What came" here="send" me={me} width="column">
      <h1>What came</h1>
      <Complaints wrong={wrong} />
      <p>
        Each log is kept as it came, and none of it counts until it is sent. Open each, look at it, and send it from
        there.
      </p>
      {logs.some((one) => one?.isUnderWay) ? <AskedAgain /> : null}
      <ol className={styles.files} id="files">
        {logs.map((one) => (one === null ? null : <OneOfSeveral key={one.log.file} one={one} />))}
      </ol>
      <p>
        <a href="/send">Send other logs</a>
      </p>
    </Frame>
  );
}
