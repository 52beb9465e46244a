import type { ReactNode } from "react";
import styles from "./Form.module.css";

interface Props {
  readonly name: string;
  readonly value: string;
  readonly checked?: boolean;
  readonly kind?: "radio" | "checkbox";
  readonly children: ReactNode;
}

/** One answer to choose, large enough for a thumb. */
export function Choice({ name, value, checked = false, kind = "radio", children }: Props) {
  return (
    <label className={styles.choice}>
      <input type={kind} name={name} value={value} defaultChecked={checked} />
      <span>{children}</span>
    </label>
  );
}
