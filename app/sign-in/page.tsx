import { redirect } from "next/navigation";
import { Complaints, Field, Submit } from "../_parts/Form";
import { Frame } from "../_parts/Frame";
import { meOrNobody } from "../asking";
import { noteFor } from "../note";
import { ownPath } from "../ownPath";

interface Props {
  readonly searchParams: Promise<{ readonly to?: string; readonly note?: string }>;
}

export default async function SignInPage({ searchParams }: Props) {
  const { to, note } = await searchParams;
  if ((await meOrNobody()) !== null) redirect(ownPath(to));
  const { typed, wrong } = await noteFor(note);
  const failed = Object.keys(wrong).length > 0;
  return (
    <Frame title={failed ? "Another try: sign in" : "Sign in"} me={null} width="column">
      <h1>Sign in</h1>
      <Complaints wrong={wrong} />
      <form method="post" action="/sign-in/enter">
        <Field id="name" label="Your name" hint="As it was given to you with the password." wrong={wrong.name}>
          {(given) => (
            <input {...given} autoComplete="username" defaultValue={typed.name} required autoCapitalize="none" />
          )}
        </Field>
        <Field id="password" label="Password" wrong={wrong.password}>
          {(given) => <input {...given} type="password" autoComplete="current-password" required />}
        </Field>
        <input type="hidden" name="to" value={ownPath(to)} />
        <p>
          <Submit>Sign in</Submit>
        </p>
      </form>
      <h2>No password, or forgotten?</h2>
      <p>
        Ask your programme officer for a code, then <a href="/sign-in/code">set a new password with the code</a>.
      </p>
    </Frame>
  );
}
