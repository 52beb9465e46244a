import styles from "./Account.module.css";

interface Rows {
  readonly rows: number;
  readonly counted: number;
  readonly held: number;
  readonly setAside: number;
}

/** Where every row of a log went, written as the sum that it is: the three add up to the file. */
export function Account({ rows }: { readonly rows: Rows }) {
  const parts = [
    { name: "counted", count: rows.counted, says: rows.counted === 1 ? "row counted" : "rows counted" },
    { name: "held", count: rows.held, says: rows.held === 1 ? "row needs your answer" : "rows need your answer" },
    { name: "aside", count: rows.setAside, says: "not a batch: heading, total, empty or note" },
  ] as const;
  return (
    <div className={styles.account}>
      <table className={styles.sum}>
        <caption className={styles.caption}>Where every row went</caption>
        <tbody>
          {parts.map(({ name, count, says }) => (
            <tr key={name}>
              <td>{count.toLocaleString("en-GB")}</td>
              <th scope="row">
                <span className={`${styles.key} ${styles[name]}`} aria-hidden="true" />
                {says}
              </th>
            </tr>
          ))}
          <tr className={styles.whole}>
            <td>{rows.rows.toLocaleString("en-GB")}</td>
            <th scope="row">{rows.rows === 1 ? "row in the log" : "rows in the log"}</th>
          </tr>
        </tbody>
      </table>
      <div className={styles.strip} aria-hidden="true">
        {parts.map(({ name, count }) =>
          count === 0 ? null : <span key={name} className={styles[name]} style={{ flexGrow: count }} />,
        )}
      </div>
    </div>
  );
}
