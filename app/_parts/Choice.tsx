import type { ReactNode } from "react";
import styles from "./Form.module.css";

interface Props {
  readonly name: string;
  readonly value: string;
  readonly checked?: boolean;
  readonly kind?: "radio" | "checkbox";
  /** the form that it belongs to, where it stands outside of it */
  readonly form?: string;
  /** what would follow from it */
  readonly follows?: string;
  readonly children: ReactNode;
}

/** One answer to choose, large enough for a thumb. */
export function Choice({ name, value, checked = false, kind = "radio", form, follows = "", children }: Props) {
  return (
    <label className={styles.choice}>
      <input type={kind} name={name} value={value} defaultChecked={checked} form={form} />
      <span>
        {children} {follows === "" ? null : <span className={styles.follows}>{follows}</span>}
      </span>
    </label>
  );
}
