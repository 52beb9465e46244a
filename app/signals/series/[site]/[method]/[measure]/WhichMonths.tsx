import { Second } from "../../../../../_parts/Form";
import { FromTo } from "../../../../../_parts/FromTo";
import styles from "./page.module.css";

interface Props {
  readonly from: string;
  readonly to: string;
  readonly today: string;
}

/** Which months of the series are shown. */
export function WhichMonths({ from, to, today }: Props) {
  return (
    <form className={styles.which} method="get">
      <FromTo from={from} to={to} today={today} />
      <p>
        <Second>Show these</Second>
      </p>
    </form>
  );
}
