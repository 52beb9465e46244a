import { Complaints, Field, Submit } from "../../../_parts/Form";
import { Frame } from "../../../_parts/Frame";
import { MonthChoice } from "../../../_parts/MonthChoice";
import { orNothing, signedIn } from "../../../asking";
import { NothingHere } from "../../../NothingHere";
import { noteFor } from "../../../note";
import { FactList } from "./FactList";
import { LateClosings } from "./LateClosings";

interface Props {
  readonly params: Promise<{ readonly code: string }>;
  readonly searchParams: Promise<{ readonly note?: string }>;
}

/** What is declared of a site, and what its lead may declare: closed days, a month without production. */
export default async function FactsPage({ params, searchParams }: Props) {
  const { code } = await params;
  const { api, me } = await signedIn(`/sites/${code}/facts`);
  const facts = await orNothing(api.sites.facts({ site: code }));
  if (facts === null) return <NothingHere />;
  const site = (await api.sites.list()).find((one) => one.code === code);
  const { typed, wrong, told } = await noteFor((await searchParams).note);
  const name = site?.name ?? code;
  const today = site?.today ?? new Date().toISOString().slice(0, 10);
  const mayDeclare = me.role !== "auditor";
  return (
    <Frame title={`What is declared of ${name}`} here="sites" me={me} width="column">
      <h1>What is declared of {name}</h1>
      <p>
        <a href={`/sites/${code}`}>Months of {name}</a>
      </p>
      {told.done === undefined ? null : <p role="status">{told.done}</p>}
      <Complaints wrong={wrong} />
      <LateClosings
        closings={await api.sites.lateClosings({ site: code })}
        code={code}
        mayAccept={me.role === "officer"}
      />
      {mayDeclare ? (
        <>
          <h2>Closed days</h2>
          <form method="post" action={`/sites/${code}/facts/declare`}>
            <input type="hidden" name="kind" value="closed" />
            <Field id="from" label="First closed day" wrong={wrong.from}>
              {(given) => <input {...given} type="date" defaultValue={typed.from} required />}
            </Field>
            <Field id="to" label="Last closed day" hint="The same for a single day." wrong={wrong.to}>
              {(given) => <input {...given} type="date" defaultValue={typed.to} required />}
            </Field>
            <Field
              id="reason"
              label="Why"
              hint="Such as a holiday, or no larvae. Declared by the day the log is due, these days are not owed."
              wrong={wrong.reason}
            >
              {(given) => <input {...given} defaultValue={typed.reason} required maxLength={200} />}
            </Field>
            <p>
              <Submit>Declare closed days</Submit>
            </p>
          </form>
          <h2>A month without production</h2>
          <form method="post" action={`/sites/${code}/facts/declare`}>
            <input type="hidden" name="kind" value="nothing-produced" />
            <MonthChoice
              today={today}
              chosen={typed.month ?? ""}
              year={typed.year ?? ""}
              label="Month in which nothing was produced"
              needed
            />
            <p>
              <Submit>Declare that nothing was produced</Submit>
            </p>
          </form>
        </>
      ) : null}
      <h2>Everything declared</h2>
      <FactList facts={facts} code={code} mayTakeBack={mayDeclare} />
    </Frame>
  );
}
