import type { ReactElement } from "react";
import type { Direction } from "#server/terms/signal";
import styles from "./charts.module.css";

/** A level that steps up or down: stands before "since 12 April". The words beside it say the rest. */
export function stepMark(direction: Direction): ReactElement {
  const path = direction === "up" ? "M1 11H9V3H17" : "M1 3H9V11H17";
  return (
    <svg width={18} height={14} viewBox="0 0 18 14" aria-hidden="true">
      <path className={styles.step} d={path} />
    </svg>
  );
}
