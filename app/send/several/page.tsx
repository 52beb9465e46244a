import { Complaints } from "../../_parts/Form";
import { Frame } from "../../_parts/Frame";
import { signedIn } from "../../asking";
import { NothingHere } from "../../NothingHere";
import { noteFor } from "../../note";
import { single } from "../../single";
import { OneOfSeveral } from "./OneOfSeveral";
import styles from "./page.module.css";

interface Props {
  readonly searchParams: Promise<{ readonly files?: string; readonly month?: string; readonly note?: string }>;
}

/** Several logs that came at once, each with what was understood of it and the way to send it. */
export default async function SeveralPage({ searchParams }: Props) {
  const asked = single(await searchParams);
  const here = `/send/several?${new URLSearchParams({ files: asked.files ?? "" })}`;
  const { api, me } = await signedIn(here);
  if (me.role === "auditor") return <NothingHere />;
  const files = (asked.files ?? "").split(".").filter((file) => file !== "");
  const month = /^\d{4}-(0[1-9]|1[0-2])$/.test(asked.month ?? "") ? (asked.month ?? null) : null;
  const { wrong } = await noteFor(asked.note);
  return (
    <Frame title="What came" here="send" me={me} width="column">
      <h1>What came</h1>
      <Complaints wrong={wrong} />
      <p>
        Each log is kept as it came, and none of it counts until it is sent. Open each, look at it, and send it from
        there.
      </p>
      <ol className={styles.files} id="files">
        {files.slice(0, 20).map((file) => (
          <OneOfSeveral key={file} api={api} file={file} month={month} />
        ))}
      </ol>
      <p>
        <a href="/send">Send other logs</a>
      </p>
    </Frame>
  );
}
