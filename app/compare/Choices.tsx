import type { Method } from "#server/terms/batch";
import { plusMonths } from "#server/terms/days";
import { Second } from "../_parts/Form";
import form from "../_parts/Form.module.css";
import { MonthChoice } from "../_parts/MonthChoice";
import { monthInWords } from "../_words/days";
import { METHOD_WORDS } from "../_words/methods";
import { type Asked, addressOf, SORT_WORDS, SORTS } from "./asked";
import styles from "./page.module.css";

interface Props {
  readonly asked: Asked;
  readonly today: string;
  /** dryers in use, to choose from */
  readonly dryers: readonly Method[];
}

/** Month, dryer and order: a plain form, so that everything asked for stands in the address. */
export function Choices({ asked, today, dryers }: Props) {
  const [before, after] = [plusMonths(asked.month, -1), plusMonths(asked.month, 1)];
  return (
    <form className={styles.choices} method="get" action="/compare">
      <MonthChoice today={today} chosen={asked.month.slice(5)} year={asked.month.slice(0, 4)} label="Month" needed />
      <label>
        Dryer
        <select name="dryer" className={form.control} defaultValue={asked.dryer ?? ""}>
          <option value="">all</option>
          {dryers.map((method) => (
            <option key={method} value={method}>
              {METHOD_WORDS[method]}
            </option>
          ))}
        </select>
      </label>
      <label>
        Order
        <select name="sort" className={form.control} defaultValue={asked.sort}>
          {SORTS.map((sort) => (
            <option key={sort} value={sort}>
              {SORT_WORDS[sort]}
            </option>
          ))}
        </select>
      </label>
      {asked.known === undefined ? null : <input type="hidden" name="known" value={asked.known} />}
      <p>
        <Second>Show</Second>
      </p>
      <ul>
        <li>
          <a href={addressOf(asked, { month: before })}>{monthInWords(before)}</a>
        </li>
        {after > today.slice(0, 7) ? null : (
          <li>
            <a href={addressOf(asked, { month: after })}>{monthInWords(after)}</a>
          </li>
        )}
      </ul>
    </form>
  );
}
