import type { ReactNode } from "react";
import styles from "./Scrolling.module.css";

/** A wide table scrolls in a box of its own, which the keyboard can reach. */
export function Scrolling({ label, children }: { readonly label: string; readonly children: ReactNode }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached without a mouse
    <section className={styles.box} tabIndex={0} aria-label={label}>
      {children}
    </section>
  );
}
