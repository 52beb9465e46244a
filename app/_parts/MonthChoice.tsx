import { monthName } from "../_words/days";
import styles from "./Form.module.css";

interface Props {
  readonly today: string;
  /** "03", or empty for none */
  readonly chosen: string;
  readonly year: string;
  readonly label?: string;
  readonly needed?: boolean;
}

/** A month in two choices, which every browser has. */
export function MonthChoice({
  today,
  chosen,
  year,
  label = "Month of the log (may be left open)",
  needed = false,
}: Props) {
  const thisYear = Number(today.slice(0, 4));
  const years = [...new Set([thisYear, thisYear - 1, thisYear - 2, ...(year === "" ? [] : [Number(year)])])].sort(
    (a, b) => b - a,
  );
  return (
    <fieldset className={styles.months}>
      <legend>{label}</legend>
      <div>
        <select name="month" aria-label="Month" defaultValue={chosen} className={styles.control} required={needed}>
          <option value="">{needed ? "Month" : "As its dates say"}</option>
          {Array.from({ length: 12 }, (_, at) => String(at + 1).padStart(2, "0")).map((number) => (
            <option key={number} value={number}>
              {monthName(number)}
            </option>
          ))}
        </select>
        <select
          name="year"
          aria-label="Year"
          defaultValue={year === "" ? String(thisYear) : year}
          className={styles.control}
        >
          {years.map((one) => (
            <option key={one} value={one}>
              {one}
            </option>
          ))}
        </select>
      </div>
    </fieldset>
  );
}
