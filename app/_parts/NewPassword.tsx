import { Field } from "./Form";

/** The field in which somebody chooses a password. */
export function NewPassword({ wrong }: { readonly wrong: string | undefined }) {
  return (
    <Field
      id="password"
      label="New password"
      hint="At least 8 characters. Three or four words that nobody would guess do well. Spaces count."
      wrong={wrong}
    >
      {(given) => (
        <input {...given} type="password" autoComplete="new-password" minLength={8} maxLength={200} required />
      )}
    </Field>
  );
}
