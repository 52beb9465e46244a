import { Complaints, Field, Submit } from "../../_parts/Form";
import { Frame } from "../../_parts/Frame";
import { NewPassword } from "../../_parts/NewPassword";
import { noteFor } from "../../note";

interface Props {
  readonly searchParams: Promise<{ readonly note?: string }>;
}

export default async function CodePage({ searchParams }: Props) {
  const { typed, wrong } = await noteFor((await searchParams).note);
  return (
    <Frame title="Set a new password with a code" me={null} width="column">
      <h1>Set a new password with a code</h1>
      <p>
        Your programme officer gives you the code. It works once, within a day. Whoever is still signed in under your
        name is signed out.
      </p>
      <Complaints wrong={wrong} />
      <form method="post" action="/sign-in/use">
        <Field id="name" label="Your name" wrong={wrong.name}>
          {(given) => (
            <input {...given} autoComplete="username" defaultValue={typed.name} required autoCapitalize="none" />
          )}
        </Field>
        <Field id="code" label="Code" hint="Capital and small letters count." wrong={wrong.code}>
          {(given) => (
            <input {...given} defaultValue={typed.code} required autoComplete="one-time-code" autoCapitalize="none" />
          )}
        </Field>
        <NewPassword wrong={wrong.password} />
        <p>
          <Submit>Set the password and sign in</Submit>
        </p>
      </form>
      <p>
        <a href="/sign-in">Back to sign in</a>
      </p>
    </Frame>
  );
}
