import { Complaints, Field, Second, Submit } from "../_parts/Form";
import { Frame } from "../_parts/Frame";
import { ROLE_WORDS } from "../_words/methods";
import { orNothing, signedIn } from "../asking";
import { NothingHere } from "../NothingHere";
import { noteFor } from "../note";
import styles from "./page.module.css";
import { ToldOnce } from "./ToldOnce";

interface Props {
  readonly searchParams: Promise<{ readonly note?: string }>;
}

export default async function PeoplePage({ searchParams }: Props) {
  const { api, me } = await signedIn("/people");
  if (me.role !== "officer" && me.role !== "operator") return <NothingHere />;
  const people = await orNothing(api.people.list());
  if (people === null) return <NothingHere />;
  const sites = await api.sites.list();
  const { typed, wrong, told } = await noteFor((await searchParams).note);
  const active = people.filter((one) => one.active && one.role !== "operator");
  const ended = people.filter((one) => !one.active);
  return (
    <Frame
      title={Object.keys(wrong).length > 0 ? "Another try: people" : "People"}
      here="people"
      me={me}
      width="column"
    >
      <h1>People</h1>
      <ToldOnce told={told} />
      <Complaints wrong={wrong} />
      <ul className={styles.people}>
        {active.map(({ id, name, role, siteCode }) => (
          <li key={id}>
            <details>
              <summary>
                <strong>
                  <bdi>{name}</bdi>
                </strong>
                , {ROLE_WORDS[role]}
                {siteCode === null ? "" : ` of ${siteCode}`}
              </summary>
              <form method="post" action="/people/decide">
                <input type="hidden" name="id" value={id} />
                <input type="hidden" name="name" value={name} />
                <p>
                  <Second name="what" value="reset">
                    Make a code for a new password
                  </Second>
                </p>
                <p>
                  {id === me.id ? null : (
                    <Second name="what" value="end">
                      End what this person may do
                    </Second>
                  )}
                </p>
                <p>What was done by this person stays on record.</p>
              </form>
            </details>
          </li>
        ))}
      </ul>
      {ended.length === 0 ? null : <p>May act no more: {ended.map(({ name }) => name).join(", ")}.</p>}
      <h2>Add somebody</h2>
      <form method="post" action="/people/add">
        <Field
          id="name"
          label="Name to sign in with"
          hint="Letters, digits, spaces. No mail address is needed."
          wrong={wrong.name}
        >
          {(given) => <input {...given} defaultValue={typed.name} required maxLength={60} autoComplete="off" />}
        </Field>
        <Field id="role" label="What may they do?" wrong={wrong.role}>
          {(given) => (
            <select {...given} defaultValue={typed.role ?? "lead"}>
              <option value="lead">Site lead: sends the logs of one site and sees that site</option>
              <option value="officer">Programme officer: sees and decides everything</option>
              <option value="auditor">Auditor: sees everything, changes nothing</option>
            </select>
          )}
        </Field>
        <Field id="site" label="Site of a site lead" wrong={wrong.site}>
          {(given) => (
            <select {...given} defaultValue={typed.site ?? ""}>
              <option value="">None</option>
              {sites.map(({ code, name }) => (
                <option key={code} value={code}>
                  {name} ({code})
                </option>
              ))}
            </select>
          )}
        </Field>
        <p>
          <Submit>Add</Submit>
        </p>
      </form>
    </Frame>
  );
}
