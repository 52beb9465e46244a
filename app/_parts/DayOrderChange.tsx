import styles from "./ColumnChange.module.css";
import form from "./Form.module.css";

/** Lets somebody say that the dates of a log are written in another order. */
export function DayOrderChange({ form: to }: { readonly form: string }) {
  return (
    <details className={styles.change}>
      <summary>Change the order of dates</summary>
      <label>
        <span>Dates are written</span>
        <select name="dayOrder" form={to} className={form.control} defaultValue="">
          <option value="">as read</option>
          <option value="dmy">day, month, year</option>
          <option value="mdy">month, day, year</option>
          <option value="ymd">year, month, day</option>
        </select>
      </label>
    </details>
  );
}
