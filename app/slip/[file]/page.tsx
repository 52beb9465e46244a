import { redirect } from "next/navigation";
import { CautionBeforePacking } from "../../_parts/Caution";
import { Frame } from "../../_parts/Frame";
import { SettledBy } from "../../_parts/SettledBy";
import { SlipPaper } from "../../_parts/SlipPaper";
import { TakeBack } from "../../_parts/TakeBack";
import { monthInWords } from "../../_words/days";
import { orNothing, signedIn } from "../../asking";
import { NothingHere } from "../../NothingHere";
import styles from "./page.module.css";

interface Props {
  readonly params: Promise<{ readonly file: string }>;
}

export default async function SlipPage({ params }: Props) {
  const { file } = await params;
  const { api, me } = await signedIn(`/slip/${file}`);
  const log = await orNothing(api.logs.file({ file }));
  if (log === null) return <NothingHere />;
  if (log.state !== "counted") redirect(me.role === "auditor" ? `/files/${file}` : `/send/${file}`);
  const slip = await api.logs.slip({ file });
  const site = (await api.sites.list()).find(({ code }) => code === slip.site);
  return (
    <Frame title={`Sending slip ${slip.code}`} here="send" me={me} width="column">
      <SlipPaper slip={slip} name={log.name} site={site?.name ?? null} mayAnswer={me.role !== "auditor"} />
      <SettledBy settled={log.settled} />
      <nav className={styles.on} aria-label="On from here">
        <ul>
          <li>
            <a href={`/files/${file}`}>Every row of the log with its fate</a>
          </li>
          {slip.site === null
            ? null
            : slip.months.map((month) => (
                <li key={month}>
                  <a href={`/sites/${slip.site}/${month}`}>The figures of {monthInWords(month)}</a>
                </li>
              ))}
          {me.role === "auditor" ? null : (
            <li>
              <a href="/send">Send another log</a>
            </li>
          )}
        </ul>
      </nav>
      {me.role === "auditor" ? null : <TakeBack file={file} />}
      <CautionBeforePacking />
    </Frame>
  );
}
