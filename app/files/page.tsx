import { Field, Second } from "../_parts/Form";
import form from "../_parts/Form.module.css";
import { Frame } from "../_parts/Frame";
import { SentLogs } from "../_parts/SentLogs";
import { orNothing, signedIn } from "../asking";
import { NothingHere } from "../NothingHere";
import { noteFor } from "../note";
import { single } from "../single";
import { SendBySite } from "./SendBySite";

interface Props {
  readonly searchParams: Promise<{
    readonly site?: string;
    readonly before?: string;
    readonly note?: string;
  }>;
}

/** The choice of the logs that name their sites row by row. */
const PROGRAMME = "(programme)";

/** Everything that was ever sent: by a site, by the programme, or by all, page by page. */
export default async function FilesPage({ searchParams }: Props) {
  const asked = single(await searchParams);
  const { api, me } = await signedIn("/files");
  const chosen = me.site ?? asked.site ?? "";
  const before = Number.parseInt(asked.before ?? "", 10);
  const page = before > 0 && Number.isSafeInteger(before) ? { before } : {};
  const found =
    chosen === "" || chosen === PROGRAMME
      ? api.sent.ofAll({ ...page, whose: chosen === "" ? "all" : "programme" })
      : api.sent.ofSite({ ...page, site: chosen });
  const history = await orNothing(found);
  if (history === null) return <NothingHere />;
  const sites = await api.sites.list();
  const { wrong } = await noteFor(asked.note);
  const of = chosen === PROGRAMME ? "the programme" : (sites.find(({ code }) => code === chosen)?.name ?? "everybody");
  const query = me.site === null && chosen !== "" ? `site=${encodeURIComponent(chosen)}&` : "";
  return (
    <Frame title={`Everything that ${of} sent`} here="sites" me={me} width="column">
      <h1>Everything that {of} sent</h1>
      {me.site === null ? (
        <form method="get" action="/files">
          <Field id="site" label="Logs of">
            {(given) => (
              <select {...given} defaultValue={chosen}>
                <option value="">everybody</option>
                <option value={PROGRAMME}>the programme: rows name their sites</option>
                {sites.map(({ code, name }) => (
                  <option key={code} value={code}>
                    {name} ({code})
                  </option>
                ))}
              </select>
            )}
          </Field>
          <p>
            <Second>Show these</Second>
          </p>
        </form>
      ) : (
        <p>
          <a href={`/sites/${me.site}`}>The site</a>
        </p>
      )}
      {chosen === PROGRAMME && me.role === "officer" ? <SendBySite wrong={wrong} /> : null}
      <SentLogs
        logs={history.logs}
        title={Number.isNaN(before) ? "Newest first" : "Earlier"}
        ownSite={me.site}
        account
      />
      <p className={form.buttons}>
        {Number.isNaN(before) ? null : <a href={`/files?${query}`}>The newest</a>}
        {history.next === null ? null : <a href={`/files?${query}before=${history.next}`}>Earlier ones</a>}
      </p>
    </Frame>
  );
}
