import type { RowRead } from "#server/terms/row";
import { counted } from "../_words/days";
import { reasonInWords } from "../_words/problems";
import styles from "./SetAside.module.css";

const MOST = 60;

/** Rows that are not batches, each with the reason, folded away: they are few and rarely asked for. */
export function SetAside({ rows }: { readonly rows: readonly Pick<RowRead, "sheet" | "row" | "fate" | "reasons">[] }) {
  const aside = rows.filter(({ fate }) => fate === "set-aside");
  if (aside.length === 0) return null;
  return (
    <details className={styles.aside}>
      <summary>{counted(aside.length, "row is not a batch", "rows are not batches")}: why?</summary>
      <ul>
        {aside.slice(0, MOST).map(({ sheet, row, reasons }) => (
          <li key={`${sheet} ${row}`}>
            Row {row}: {reasons.map(reasonInWords).join(" ")}
          </li>
        ))}
      </ul>
      {aside.length > MOST ? <p>And {aside.length - MOST} more.</p> : null}
    </details>
  );
}
