import { counted } from "../_words/days";
import styles from "./Account.module.css";

interface Rows {
  readonly rows: number;
  readonly counted: number;
  readonly held: number;
  readonly setAside: number;
}

/** Where every row of a log went. The three add up to the file, and the strip shows it. */
export function Account({ rows }: { readonly rows: Rows }) {
  const parts = [
    { name: "counted", count: rows.counted, says: "counted" },
    { name: "held", count: rows.held, says: rows.held === 1 ? "needs your answer" : "need your answer" },
    { name: "aside", count: rows.setAside, says: rows.setAside === 1 ? "is not a batch" : "are not batches" },
  ] as const;
  return (
    <div className={styles.account}>
      <p className={styles.sum}>
        <strong>{counted(rows.rows, "row")}</strong> ={" "}
        {parts.map(({ name, count, says }, at) => (
          <span key={name}>
            {at === 0 ? "" : " + "}
            <strong>{count.toLocaleString("en-GB")}</strong> {says}
          </span>
        ))}
      </p>
      <div className={styles.strip} aria-hidden="true">
        {parts.map(({ name, count }) =>
          count === 0 ? null : <span key={name} className={styles[name]} style={{ flexGrow: count }} />,
        )}
      </div>
    </div>
  );
}
