import type { ReactNode } from "react";
import styles from "./Form.module.css";

export interface Wrong {
  readonly [field: string]: string;
}

/** What is wrong with a form, at its top, each with a link to its field. Named by the address, so that it is read first. */
export function Complaints({ wrong }: { readonly wrong: Wrong }) {
  const list = Object.entries(wrong);
  if (list.length === 0) return null;
  return (
    <div className={styles.complaints} id="wrong" tabIndex={-1} role="alert">
      <h2>{list.length === 1 ? "One thing needs another look" : "Some things need another look"}</h2>
      <ul>
        {list.map(([field, sentence]) => (
          <li key={field}>
            <a href={`#${field}`}>{sentence}</a>
          </li>
        ))}
      </ul>
    </div>
  );
}

interface FieldProps {
  readonly id: string;
  readonly label: string;
  readonly hint?: ReactNode;
  readonly wrong?: string | undefined;
  /** the control, which gets these */
  readonly children: (given: {
    readonly id: string;
    readonly name: string;
    readonly className: string;
    readonly "aria-describedby"?: string;
    readonly "aria-invalid"?: true;
  }) => ReactNode;
}

/** One field with its label, what it is for, and what is wrong with it. */
export function Field({ id, label, hint, wrong, children }: FieldProps) {
  const described = [...(hint === undefined ? [] : [`${id}-hint`]), ...(wrong === undefined ? [] : [`${id}-wrong`])];
  return (
    <div className={`${styles.field} ${wrong === undefined ? "" : styles.isWrong}`}>
      <label htmlFor={id}>{label}</label>
      {hint === undefined ? null : (
        <p className={styles.hint} id={`${id}-hint`}>
          {hint}
        </p>
      )}
      {wrong === undefined ? null : (
        <p className={styles.wrong} id={`${id}-wrong`}>
          {wrong}
        </p>
      )}
      {children({
        id,
        name: id,
        className: styles.control ?? "",
        ...(described.length === 0 ? {} : { "aria-describedby": described.join(" ") }),
        ...(wrong === undefined ? {} : { "aria-invalid": true as const }),
      })}
    </div>
  );
}

export function Submit({ children, name, value }: { children: ReactNode; name?: string; value?: string }) {
  return (
    <button className={styles.submit} type="submit" name={name} value={value}>
      {children}
    </button>
  );
}

export function Second({ children, name, value }: { children: ReactNode; name?: string; value?: string }) {
  return (
    <button className={styles.second} type="submit" name={name} value={value}>
      {children}
    </button>
  );
}
