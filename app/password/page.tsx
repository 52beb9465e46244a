import { redirect } from "next/navigation";
import { Complaints, Field, Submit } from "../_parts/Form";
import { Frame } from "../_parts/Frame";
import { NewPassword } from "../_parts/NewPassword";
import { meOrNobody, whoAsks } from "../asking";
import { noteFor } from "../note";

interface Props {
  readonly searchParams: Promise<{ readonly note?: string }>;
}

export default async function PasswordPage({ searchParams }: Props) {
  const { mustChange } = await whoAsks();
  const me = await meOrNobody();
  if (me === null && !mustChange) redirect("/sign-in?to=/password");
  const { wrong } = await noteFor((await searchParams).note);
  return (
    <Frame title="Your own password" here="account" me={me} width="column">
      <h1>{mustChange ? "First choose a password of your own" : "Change your password"}</h1>
      {mustChange ? <p>Somebody else made the one you have. From now on only you should know yours.</p> : null}
      <Complaints wrong={wrong} />
      <form method="post" action="/password/set">
        <Field
          id="present"
          label="Present password"
          {...(mustChange ? { hint: "The one that you were given." } : {})}
          wrong={wrong.present}
        >
          {(given) => <input {...given} type="password" autoComplete="current-password" required />}
        </Field>
        <NewPassword wrong={wrong.password} />
        <p>
          <Submit>{mustChange ? "Set it and go on" : "Change it"}</Submit>
        </p>
      </form>
      <p>Every other device on which you are signed in is signed out.</p>
    </Frame>
  );
}
