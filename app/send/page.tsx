import { largestFile } from "#server/api/request";
import { CautionBeforeFire } from "../_parts/Caution";
import { Complaints, Field, Submit } from "../_parts/Form";
import { Frame } from "../_parts/Frame";
import { MonthChoice } from "../_parts/MonthChoice";
import { SentLogs } from "../_parts/SentLogs";
import { signedIn } from "../asking";
import { NothingHere } from "../NothingHere";
import { noteFor } from "../note";
import { single } from "../single";
import { CameBy } from "./CameBy";

/** The page stays light for a phone on a bad line. */
const LATEST = 5;

interface Props {
  readonly searchParams: Promise<{ readonly site?: string; readonly month?: string; readonly note?: string }>;
}

export default async function SendPage({ searchParams }: Props) {
  const asked = single(await searchParams);
  const { api, me } = await signedIn("/send");
  if (me.role === "auditor") return <NothingHere />;
  const sites = await api.sites.list();
  const own = me.site === null ? undefined : sites.find(({ code }) => code === me.site);
  const { typed, wrong } = await noteFor(asked.note);
  const chosen = typed.site ?? asked.site ?? "";
  const today = own?.today ?? sites[0]?.today ?? new Date().toISOString().slice(0, 10);
  return (
    <Frame
      title={Object.keys(wrong).length > 0 ? "Another try: send a log" : "Send a log"}
      here="send"
      me={me}
      width="column"
    >
      <h1>Send a log{own === undefined ? "" : ` of ${own.name}`}</h1>
      <Complaints wrong={wrong} />
      {sites.length === 0 ? <NoSite /> : null}
      <form method="post" action="/send/arrive" encType="multipart/form-data">
        {own === undefined ? (
          <Field id="site" label="Site" wrong={wrong.site}>
            {(given) => (
              <select {...given} defaultValue={chosen} required>
                <option value="">Choose the site</option>
                {sites.map(({ code, name }) => (
                  <option key={code} value={code}>
                    {name} ({code})
                  </option>
                ))}
              </select>
            )}
          </Field>
        ) : (
          <input type="hidden" name="site" value={own.code} />
        )}
        <Field
          id="log"
          label="The log"
          hint={`Sheets as XLSX or CSV in whatever layout you keep them, or pictures of them; several at once, together up to ${Math.floor(largestFile() / 2 ** 20)} MiB.`}
          wrong={wrong.log}
        >
          {(given) => (
            <input
              {...given}
              type="file"
              multiple
              accept=".xlsx,.csv,.tsv,.txt,text/csv,image/*,.heic,application/pdf"
            />
          )}
        </Field>
        <Field id="pasted" label="Or paste lines, as from a message">
          {(given) => <textarea {...given} rows={3} defaultValue={typed.pasted} />}
        </Field>
        <MonthChoice
          today={today}
          chosen={typed.month ?? asked.month?.slice(5) ?? ""}
          year={typed.year ?? asked.month?.slice(0, 4) ?? ""}
        />
        {own === undefined ? <CameBy typed={typed} wrong={wrong} /> : null}
        <p>
          <Submit>Look at it first</Submit>
        </p>
        <p>
          The log is kept as it comes. On the next page you see what was understood of it, and nothing counts until you
          say so.
        </p>
      </form>
      <p>
        <a href={`/sheets${own === undefined ? "" : `?site=${own.code}`}`}>Blank sheets to print</a>
      </p>
      {own === undefined ? null : (
        <>
          <SentLogs
            logs={(await api.sent.ofSite({ site: own.code, most: LATEST })).logs}
            title="Sent before"
            ownSite={own.code}
          />
          <p>
            <a href="/files">Everything that {own.name} sent</a>
          </p>
        </>
      )}
      <CautionBeforeFire />
    </Frame>
  );
}

function NoSite() {
  return (
    <p>
      There is no site yet. <a href="/sites/new">Open the first one</a>, then send its log.
    </p>
  );
}
