import styles from "./page.module.css";

/** A password or code that is shown this once, to be handed on. */
export function ToldOnce({ told }: { readonly told: Readonly<Record<string, string>> }) {
  if (told.name === undefined) return null;
  return (
    <div className={styles.told} role="status">
      {told.ended !== undefined ? (
        <p>
          <bdi>{told.name}</bdi> may act no more, on any device.
        </p>
      ) : (
        <>
          <p>
            {told.password !== undefined ? "First password" : "Code"} of <bdi>{told.name}</bdi>, shown this once:
          </p>
          <p className={styles.secret}>{told.password ?? told.code}</p>
          <p>
            {told.password !== undefined
              ? "Hand it over in person or by telephone. At the first sign-in an own password is asked for."
              : "It works once, within a day, on the page “Set a new password with a code” behind the sign-in page."}
          </p>
        </>
      )}
    </div>
  );
}
