import { Complaints, Submit } from "../../_parts/Form";
import { Frame } from "../../_parts/Frame";
import { signedIn } from "../../asking";
import { NothingHere } from "../../NothingHere";
import { noteFor } from "../../note";
import { SiteFields } from "./SiteFields";

interface Props {
  readonly searchParams: Promise<{ readonly note?: string }>;
}

export default async function OpenSitePage({ searchParams }: Props) {
  const { me } = await signedIn("/sites/new");
  if (me.role !== "officer" && me.role !== "operator") return <NothingHere />;
  const { typed, wrong } = await noteFor((await searchParams).note);
  return (
    <Frame
      title={Object.keys(wrong).length > 0 ? "Another try: open a site" : "Open a site"}
      here="sites"
      me={me}
      width="column"
    >
      <h1>Open a site</h1>
      <p>
        What is declared here helps to read its logs and says what it owes. Leave open what nobody knows: nothing is
        assumed in its place, and everything can be declared later, with the day from which it holds.
      </p>
      <Complaints wrong={wrong} />
      <form method="post" action="/sites/open">
        <SiteFields typed={typed} wrong={wrong} today={new Date().toISOString().slice(0, 10)} />
        <p>
          <Submit>Open the site</Submit>
        </p>
      </form>
    </Frame>
  );
}
