import { Field, type Wrong } from "../_parts/Form";
import form from "../_parts/Form.module.css";

/** For a log that an officer brings: how it reached them, and when the sender says it was sent. */
export function CameBy({ typed, wrong }: { readonly typed: Readonly<Record<string, string>>; readonly wrong: Wrong }) {
  return (
    <>
      <label className={form.choice}>
        <input type="checkbox" name="by" value="message" defaultChecked={typed.by === "message"} />
        It came to me by message or by hand
      </label>
      <Field
        id="claimed"
        label="Sent on (may be left empty)"
        hint="What the sender says. It stands beside the time of arrival here, never in its place."
        wrong={wrong.claimed}
      >
        {(given) => <input {...given} type="date" defaultValue={typed.claimed} />}
      </Field>
    </>
  );
}
